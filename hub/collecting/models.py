"""The take ledger: one account a population and year, and its entries."""

from __future__ import annotations

from datetime import datetime
from enum import StrEnum
from uuid import UUID

from sqlalchemy import CheckConstraint, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from hub.db.base import Base, Key, Long, choice
from hub.db.tenancy import BankOwned, GroupOwned, tenant_key
from hub.sites.models import SiteShared


class TakeAccount(SiteShared, Base):
    """What may leave one population in one collecting year, all groups together, and what is spoken for."""

    __tablename__ = "take_account"
    __table_args__ = (
        BankOwned.inside("population", "population_id"),
        tenant_key("bank_id"),
        UniqueConstraint("population_id", "year"),
        CheckConstraint("reserved_seeds >= 0 and taken_seeds >= 0", "not_negative"),
    )

    id: Mapped[Key]
    population_id: Mapped[UUID]
    year: Mapped[int]
    allowance_seeds: Mapped[int]
    reserved_seeds: Mapped[int] = mapped_column(default=0)
    taken_seeds: Mapped[int] = mapped_column(default=0)


class TakeKind(StrEnum):
    """What an entry does: keep a share free for a sheet, give it back, or record what left."""

    RESERVE = "reserve"
    RELEASE = "release"
    TAKE = "take"
    GIVE_BACK = "give back"


class TakeEntry(GroupOwned, Base):
    """One entry of the ledger. Entries are never changed; the account is their sum."""

    __tablename__ = "take_entry"
    __table_args__ = (
        GroupOwned.of_group(),
        GroupOwned.inside("sheet", "sheet_id"),
        BankOwned.inside("take_account", "account_id"),
        CheckConstraint("seeds > 0", "seeds"),
    )

    id: Mapped[Key]
    account_id: Mapped[UUID] = mapped_column(index=True)
    sheet_id: Mapped[UUID] = mapped_column(index=True)
    kind: Mapped[TakeKind] = mapped_column(choice(TakeKind))
    seeds: Mapped[int]
    at: Mapped[datetime]
    by: Mapped[UUID | None]
    note: Mapped[Long]
