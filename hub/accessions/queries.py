"""The accession book, lots and their ledger."""

from __future__ import annotations

from uuid import UUID

from sqlalchemy import func, select

from hub.accessions.models import Accession, Lot, LotEntry
from hub.db.work import Work
from hub.words import NotFound


def get(work: Work, accession_id: UUID, *, locked: bool = False) -> Accession:
    """One accession. Raises NotFound for any that this seat may not see."""
    found = select(Accession).where(Accession.id == accession_id)
    accession = work.db.scalars(found.with_for_update() if locked else found).one_or_none()
    if accession is None:
        raise NotFound("accession")
    return accession


def of_submission(work: Work, submission_id: UUID) -> Accession | None:
    """The accession that a submission became, if it was approved."""
    return work.db.scalars(select(Accession).where(Accession.submission_id == submission_id)).one_or_none()


def lots_of(work: Work, accession_id: UUID) -> list[Lot]:
    """The lots of an accession by label."""
    return list(work.db.scalars(select(Lot).where(Lot.accession_id == accession_id).order_by(Lot.label)))


def get_lot(work: Work, lot_id: UUID, *, locked: bool = False) -> Lot:
    """One lot. Raises NotFound for any that this seat may not see."""
    found = select(Lot).where(Lot.id == lot_id)
    if locked:
        found = found.with_for_update().execution_options(populate_existing=True)
    lot = work.db.scalars(found).one_or_none()
    if lot is None:
        raise NotFound("lot")
    return lot


def entries_of(work: Work, lot_id: UUID) -> list[LotEntry]:
    """The ledger of one lot, oldest first."""
    found = select(LotEntry).where(LotEntry.lot_id == lot_id)
    return list(work.db.scalars(found.order_by(LotEntry.at, LotEntry.id)))


def seeds_of(work: Work, accession_id: UUID) -> int:
    """Seeds in all lots of an accession together."""
    total = select(func.sum(Lot.balance_seeds)).where(Lot.accession_id == accession_id)
    return int(work.db.scalar(total) or 0)
