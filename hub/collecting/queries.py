"""What may still leave a population this year, and the entries behind it."""

from __future__ import annotations

from dataclasses import dataclass
from uuid import UUID

from sqlalchemy import func, select

from hub.collecting.models import TakeEntry, TakeKind
from hub.db.work import Work
from hub.sites.models import TakeAccount


@dataclass(frozen=True)
class Balance:
    """One population and year, all groups together; every figure in seeds."""

    allowance: int
    reserved: int
    taken: int

    @property
    def left(self) -> int:
        """What nobody has spoken for yet; zero where an old taking has gone past a lowered allowance."""
        return max(0, self.allowance - self.reserved - self.taken)


def account(work: Work, *, population_id: UUID, year: int) -> TakeAccount | None:
    """The account of a population and year, if anything was ever allowed there."""
    found = select(TakeAccount).where(TakeAccount.population_id == population_id, TakeAccount.year == year)
    return work.db.scalars(found).one_or_none()


def balance(work: Work, *, population_id: UUID, year: int) -> Balance:
    """What is allowed, reserved, taken and left; nothing at all before a first sheet."""
    row = account(work, population_id=population_id, year=year)
    return Balance(row.allowance_seeds, row.reserved_seeds, row.taken_seeds) if row else Balance(0, 0, 0)


def entries_under(work: Work, sheet_id: UUID) -> list[TakeEntry]:
    """The ledger's entries under one sheet, oldest first."""
    found = select(TakeEntry).where(TakeEntry.sheet_id == sheet_id)
    return list(work.db.scalars(found.order_by(TakeEntry.at, TakeEntry.id)))


def sums_under(work: Work, sheet_id: UUID, account_id: UUID | None = None) -> dict[TakeKind, int]:
    """Seeds by kind of entry under one sheet: in every year, or in one account alone."""
    rows = select(TakeEntry.kind, func.sum(TakeEntry.seeds)).where(TakeEntry.sheet_id == sheet_id)
    if account_id is not None:
        rows = rows.where(TakeEntry.account_id == account_id)
    found = {kind: int(seeds) for kind, seeds in work.db.execute(rows.group_by(TakeEntry.kind))}
    return {kind: found.get(kind, 0) for kind in TakeKind}


def reserved_under(work: Work, sheet_id: UUID, account_id: UUID | None = None) -> int:
    """Seeds still kept free for one sheet."""
    sums = sums_under(work, sheet_id, account_id)
    return sums[TakeKind.RESERVE] - sums[TakeKind.RELEASE]


def taken_under(work: Work, sheet_id: UUID, account_id: UUID | None = None) -> int:
    """Seeds that left under one sheet."""
    sums = sums_under(work, sheet_id, account_id)
    return sums[TakeKind.TAKE] - sums[TakeKind.GIVE_BACK]
