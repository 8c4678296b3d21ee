"""Accessions, lots and the seed ledger."""

from __future__ import annotations

from datetime import date, datetime
from uuid import UUID

from sqlalchemy import CheckConstraint, ForeignKey, Index, String, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from hub.accessions.rules import AccessionState, EntryKind, LotKind
from hub.db.base import Base, Key, Long, Short, choice
from hub.db.tenancy import BankOwned, GroupOwned, tenant_key


class Accession(GroupOwned, Base):
    """One vetted collection, numbered for good."""

    __tablename__ = "accession"
    __table_args__ = (
        GroupOwned.of_group(),
        GroupOwned.inside("submission", "submission_id"),
        BankOwned.inside("population", "population_id"),
        tenant_key("bank_id"),
        UniqueConstraint("bank_id", "year", "serial"),
        Index("ix_accession_book", "bank_id", "accessioned_at", "id"),
    )

    id: Mapped[Key]
    number: Mapped[str] = mapped_column(String(40), unique=True)  # bank, year, serial, check character
    year: Mapped[int]
    serial: Mapped[int]
    submission_id: Mapped[UUID] = mapped_column(unique=True)
    taxon_id: Mapped[UUID] = mapped_column(ForeignKey("taxon.id"), index=True)
    population_id: Mapped[UUID] = mapped_column(index=True)
    state: Mapped[AccessionState] = mapped_column(choice(AccessionState), default=AccessionState.PROCESSING)
    collected_on: Mapped[date]
    mothers: Mapped[int]
    accessioned_at: Mapped[datetime]
    accessioned_by: Mapped[UUID | None]
    reason: Mapped[Long]
    version: Mapped[int] = mapped_column()

    __mapper_args__ = {"version_id_col": version}


class Lot(BankOwned, Base):
    """Seed of one accession, or of one maternal line of it, in one container. Lines never merge."""

    __tablename__ = "lot"
    __table_args__ = (
        BankOwned.inside("accession", "accession_id"),
        tenant_key("bank_id"),
        UniqueConstraint("accession_id", "label"),
        CheckConstraint("balance_seeds >= 0", "balance"),
    )

    id: Mapped[Key]
    accession_id: Mapped[UUID] = mapped_column(index=True)
    label: Mapped[str] = mapped_column(String(20))  # 01, 02 … for lines, B for bulk
    kind: Mapped[LotKind] = mapped_column(choice(LotKind))
    mother: Mapped[Short] = mapped_column(default="")  # the field flag of the mother
    balance_seeds: Mapped[int] = mapped_column(default=0)  # the sum of its entries
    container: Mapped[Short] = mapped_column(default="")  # what the seed is in: a foil bag, a glass vial
    place: Mapped[Short] = mapped_column(default="")


class LotEntry(BankOwned, Base):
    """One entry of the seed ledger: how many seeds came or went, who, when and why."""

    __tablename__ = "lot_entry"
    __table_args__ = (BankOwned.inside("lot", "lot_id"), CheckConstraint("seeds <> 0", "seeds"))

    id: Mapped[Key]
    lot_id: Mapped[UUID] = mapped_column(index=True)
    kind: Mapped[EntryKind] = mapped_column(choice(EntryKind))
    seeds: Mapped[int]  # positive in, negative out
    estimated: Mapped[bool] = mapped_column(default=True)
    at: Mapped[datetime]
    by: Mapped[UUID | None]
    why: Mapped[Long]
