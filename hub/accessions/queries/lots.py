"""Lots, and the ledger of their seed."""

from __future__ import annotations

from collections.abc import Sequence
from uuid import UUID

from sqlalchemy import Row, func, select

from hub.accessions.models import Lot, LotEntry
from hub.accessions.rules import EntryKind
from hub.db.work import Work
from hub.words import NotFound


def lots_of(work: Work, accession_id: UUID, *, locked: bool = False) -> list[Lot]:
    """The lots of an accession by label. ``locked`` reads them afresh, and keeps others waiting."""
    found = select(Lot).where(Lot.accession_id == accession_id).order_by(Lot.label)
    if locked:
        found = found.with_for_update().execution_options(populate_existing=True)
    return list(work.db.scalars(found))


def untested(work: Work, accession_id: UUID) -> list[str]:
    """The labels of the lots that hold seed of which none was ever used up in a test."""
    tested = select(LotEntry.lot_id).where(LotEntry.kind == EntryKind.TESTED)
    found = select(Lot.label).where(
        Lot.accession_id == accession_id, Lot.balance_seeds > 0, Lot.id.not_in(tested)
    )
    return list(work.db.scalars(found.order_by(Lot.label)))


def get_lot(work: Work, lot_id: UUID, *, locked: bool = False) -> Lot:
    """One lot. Raises NotFound for any that this seat may not see. ``locked`` reads it afresh."""
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


def entries_of_accession(work: Work, accession_id: UUID) -> Sequence[Row[LotEntry, str]]:
    """The ledger of all lots of an accession, each entry with its lot's label: by lot, oldest first."""
    found = select(LotEntry, Lot.label).join(Lot, Lot.id == LotEntry.lot_id)
    found = found.where(Lot.accession_id == accession_id)
    return work.db.execute(found.order_by(Lot.label, LotEntry.at, LotEntry.id)).all()


def estimated_lots(work: Work, accession_id: UUID) -> set[UUID]:
    """The lots whose balance rests on an estimate."""
    found = select(LotEntry.lot_id).join(Lot, Lot.id == LotEntry.lot_id)
    return set(work.db.scalars(found.where(Lot.accession_id == accession_id, LotEntry.estimated)))


def seeds_of(work: Work, accession_id: UUID) -> int:
    """Seeds in all lots of an accession together."""
    total = select(func.sum(Lot.balance_seeds)).where(Lot.accession_id == accession_id)
    return int(work.db.scalar(total) or 0)
