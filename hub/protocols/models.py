"""Issued sheets, frozen, and a bank's own changes to the rulebook."""

from __future__ import annotations

from datetime import date, datetime
from enum import StrEnum
from typing import Any
from uuid import UUID

from sqlalchemy import CheckConstraint, ForeignKey, Index, String, column
from sqlalchemy.orm import Mapped, mapped_column

from hub.db.base import Base, Document, Key, Long, Short, choice
from hub.db.tenancy import BankOwned, BankShared, GroupOwned, tenant_key


class SheetState(StrEnum):
    """Whether an issued sheet still holds."""

    CURRENT = "current"
    SUPERSEDED = "superseded"
    WITHDRAWN = "withdrawn"


class IssuedSheet(GroupOwned, Base):
    """One protocol sheet as it was issued: inputs, rulebook, outcome. A contract, never edited."""

    __tablename__ = "sheet"
    __table_args__ = (
        GroupOwned.of_group(),
        GroupOwned.inside("adoption", "adoption_id"),
        BankOwned.inside("population", "population_id"),
        tenant_key("group_id"),
        Index("ix_sheet_current", "population_id", "state"),
        Index(
            "uq_sheet_current",
            "adoption_id",
            "population_id",
            unique=True,
            sqlite_where=column("state") == "current",
            postgresql_where=column("state") == "current",
        ),
    )

    id: Mapped[Key]
    number: Mapped[str] = mapped_column(String(40), unique=True)  # ends in an ISO 7064 check character
    adoption_id: Mapped[UUID] = mapped_column(index=True)
    population_id: Mapped[UUID] = mapped_column(index=True)
    taxon_id: Mapped[UUID] = mapped_column(ForeignKey("taxon.id"))
    season_id: Mapped[UUID] = mapped_column(ForeignKey("season.id"))
    state: Mapped[SheetState] = mapped_column(choice(SheetState), default=SheetState.CURRENT)
    status: Mapped[str] = mapped_column(String(20))  # ready, not_yet, stop: the sheet's own verdict
    case: Mapped[dict[str, Any]] = mapped_column(Document)
    body: Mapped[dict[str, Any]] = mapped_column(Document)
    rulebook: Mapped[str] = mapped_column(String(64))  # digest of the rulebook it was read from
    digest: Mapped[str] = mapped_column(String(64))  # of case and body: an unchanged case issues nothing new
    reserved_seeds: Mapped[int] = mapped_column(default=0)  # what the take ledger keeps free for it now
    taken_seeds: Mapped[int] = mapped_column(default=0)  # what the take ledger holds as taken under it
    issued_at: Mapped[datetime]
    issued_by: Mapped[UUID | None]
    replaced_by_id: Mapped[UUID | None]
    ended_at: Mapped[datetime | None]
    reason: Mapped[Long]


class RuleOverride(BankShared, Base):
    """A bank's change of one rule's value, for a taxon, a population or all; its sheets print it."""

    __tablename__ = "rule_override"
    __table_args__ = (BankShared.inside("population", "population_id"),)

    id: Mapped[Key]
    rule_id: Mapped[Short]
    figure: Mapped[Short]
    taxon_id: Mapped[UUID | None] = mapped_column(ForeignKey("taxon.id"))
    population_id: Mapped[UUID | None]
    old_value: Mapped[Any] = mapped_column(Document)
    new_value: Mapped[Any] = mapped_column(Document)
    reason: Mapped[Long]
    evidence: Mapped[Long]
    made_by: Mapped[UUID]
    made_by_name: Mapped[Short]
    made_at: Mapped[datetime]
    ends_on: Mapped[date]
    ended_at: Mapped[datetime | None]


class SignOffRecord(GroupOwned, Base):
    """A curator's consent to collect from one population under one adoption, where the rules ask for it."""

    __tablename__ = "sign_off"
    __table_args__ = (
        GroupOwned.of_group(),
        GroupOwned.inside("adoption", "adoption_id"),
        BankOwned.inside("population", "population_id"),
        CheckConstraint("share > 0 and share <= 1", "share"),
    )

    id: Mapped[Key]
    adoption_id: Mapped[UUID] = mapped_column(index=True)
    population_id: Mapped[UUID] = mapped_column(index=True)
    share: Mapped[float]  # the largest share of the season's ripe seed that the curator allows, 0 to 1
    reason: Mapped[Long]
    by: Mapped[UUID]
    by_name: Mapped[Short]
    at: Mapped[datetime]
    ended_at: Mapped[datetime | None]


class SheetRenewal(Base):
    """A change after which sheets must be drawn up again; done shortly after, across all groups.

    It names what changed by key alone, and belongs to no tenant: the group that recorded a census may not
    touch, nor even see, the sheets of another group at the same population.
    """

    __tablename__ = "sheet_renewal"
    __table_args__ = (Index("ix_sheet_renewal_due", "done_at", "at"),)

    id: Mapped[Key]
    at: Mapped[datetime]
    reason: Mapped[dict[str, Any]] = mapped_column(Document)  # Words.as_json
    population_id: Mapped[UUID | None]
    site_id: Mapped[UUID | None]
    taxon_id: Mapped[UUID | None]
    bank_id: Mapped[UUID | None]
    turn: Mapped[str | None] = mapped_column(String(60), unique=True)  # what turned by the calendar, and when
    tries: Mapped[int] = mapped_column(default=0)
    done_at: Mapped[datetime | None]
