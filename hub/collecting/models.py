"""The take ledger: what was reserved and taken under each sheet."""

from __future__ import annotations

from datetime import datetime
from enum import StrEnum
from uuid import UUID

from sqlalchemy import CheckConstraint
from sqlalchemy.orm import Mapped, mapped_column

from hub.db.base import Base, Key, Long, choice
from hub.db.tenancy import BankOwned, GroupOwned


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
