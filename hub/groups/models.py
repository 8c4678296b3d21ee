"""Regions with their districts, banks, groups, and who holds which seat."""

from __future__ import annotations

from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import ForeignKey, ForeignKeyConstraint, String, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from hub.db.base import Base, Document, Key, Long, Short, choice
from hub.db.tenancy import BANK, GROUP, Fence, GroupOwned, Scoped, by_bank, by_group_or_bank, tenant_key
from hub.groups.rules import AdoptionMode, GroupKind, GroupState
from hub.rights.scope import Role, Scope


class Region(Base):
    """A unit of coordination."""

    __tablename__ = "region"

    id: Mapped[Key]
    code: Mapped[str] = mapped_column(String(20), unique=True)
    name: Mapped[Short]
    outline: Mapped[dict[str, Any]] = mapped_column(Document, default=dict)  # rivers and lakes for the map


class District(Base):
    """A part of a region, with its polygon (GeoJSON geometry, WGS 84)."""

    __tablename__ = "district"
    __table_args__ = (UniqueConstraint("region_id", "code"),)

    id: Mapped[Key]
    region_id: Mapped[UUID] = mapped_column(ForeignKey("region.id"), index=True)
    code: Mapped[str] = mapped_column(String(20))
    name: Mapped[Short]
    geometry: Mapped[dict[str, Any]] = mapped_column(Document)


class Bank(Base):
    """A seed bank: the institution whose curators vet and keep."""

    __tablename__ = "bank"

    id: Mapped[Key]
    region_id: Mapped[UUID] = mapped_column(ForeignKey("region.id"), index=True)
    code: Mapped[str] = mapped_column(String(12), unique=True)
    name: Mapped[Short]
    address: Mapped[Long]
    email: Mapped[str] = mapped_column(String(254))
    zone: Mapped[str] = mapped_column(String(60), default="UTC")
    adoption_mode: Mapped[AdoptionMode] = mapped_column(choice(AdoptionMode), default=AdoptionMode.CURATOR)
    groups_per_species: Mapped[int] = mapped_column(default=3)
    adoptions_per_group: Mapped[int] = mapped_column(default=4)
    home_freezing: Mapped[bool] = mapped_column(default=False)
    law_note: Mapped[Long]  # the bank's own words on local law, printed on sheets


class Group(Scoped, Base):
    """A club or a school: the tenant."""

    __tablename__ = "groups"
    __table_args__ = (tenant_key("bank_id"),)

    policy = f"id = {GROUP} or bank_id = {BANK}"

    id: Mapped[Key]
    bank_id: Mapped[UUID] = mapped_column(ForeignKey("bank.id"), index=True)
    region_id: Mapped[UUID] = mapped_column(ForeignKey("region.id"), index=True)
    district_id: Mapped[UUID | None] = mapped_column(ForeignKey("district.id"))
    kind: Mapped[GroupKind] = mapped_column(choice(GroupKind))
    name: Mapped[Short] = mapped_column(unique=True)
    state: Mapped[GroupState] = mapped_column(choice(GroupState), default=GroupState.ASKED)
    about: Mapped[Long]
    experienced: Mapped[bool] = mapped_column(default=False)
    code: Mapped[str] = mapped_column(String(12), unique=True)  # begins the numbers of its collections
    asked_at: Mapped[datetime]
    contact_name: Mapped[Short]
    contact_email: Mapped[str] = mapped_column(String(254))

    @classmethod
    def fence(cls, scope: Scope) -> Fence:
        group_id = scope.own_group_id
        if group_id:
            return lambda rows: rows.id == group_id
        return by_bank(scope.own_bank_id)


class Seat(Scoped, Base):
    """A person's role in a group, a bank or a region, or over the hub."""

    __tablename__ = "seat"
    __table_args__ = (
        UniqueConstraint("person_id", "role", "group_id", "bank_id", "region_id"),
        ForeignKeyConstraint(["bank_id", "group_id"], ["groups.bank_id", "groups.id"]),
    )

    policy = f"group_id = {GROUP} or bank_id = {BANK}"

    id: Mapped[Key]
    person_id: Mapped[UUID] = mapped_column(ForeignKey("person.id"), index=True)
    role: Mapped[Role] = mapped_column(choice(Role))
    group_id: Mapped[UUID | None] = mapped_column(index=True)
    bank_id: Mapped[UUID | None] = mapped_column(ForeignKey("bank.id"), index=True)
    region_id: Mapped[UUID | None] = mapped_column(ForeignKey("region.id"))
    since: Mapped[datetime]
    ended_at: Mapped[datetime | None]

    @classmethod
    def fence(cls, scope: Scope) -> Fence:
        return by_group_or_bank(scope)


class Invitation(Scoped, Base):
    """A mailed link to take a seat: short-lived, used once, withdrawn at will."""

    __tablename__ = "invitation"

    policy = f"group_id = {GROUP} or bank_id = {BANK}"

    id: Mapped[Key]
    email: Mapped[str] = mapped_column(String(254))
    role: Mapped[Role] = mapped_column(choice(Role))
    group_id: Mapped[UUID | None] = mapped_column(index=True)
    bank_id: Mapped[UUID | None] = mapped_column(index=True)
    region_id: Mapped[UUID | None]
    token_digest: Mapped[str] = mapped_column(String(64), unique=True)
    sent_at: Mapped[datetime]
    ends_at: Mapped[datetime]
    taken_at: Mapped[datetime | None]
    withdrawn_at: Mapped[datetime | None]

    @classmethod
    def fence(cls, scope: Scope) -> Fence:
        return by_group_or_bank(scope)


class Crew(GroupOwned, Base):
    """Pupils who work together under a nickname and their teacher's seat: no accounts, no personal data."""

    __tablename__ = "crew"
    __table_args__ = (GroupOwned.of_group(), tenant_key("group_id"), UniqueConstraint("group_id", "nickname"))

    id: Mapped[Key]
    nickname: Mapped[Short]
    headcount: Mapped[int]
    age_band: Mapped[str] = mapped_column(String(20))
    teacher_seat_id: Mapped[UUID] = mapped_column(ForeignKey("seat.id"))
    retired_at: Mapped[datetime | None]
