"""Sites, the groups let in on them, permissions, permits, populations and censuses."""

from __future__ import annotations

from datetime import date, datetime
from typing import Any
from uuid import UUID

from sqlalchemy import CheckConstraint, ForeignKey, UniqueConstraint, and_, or_, select
from sqlalchemy.orm import Mapped, mapped_column

from hub.db.base import Base, Document, Key, Long, Short, choice
from hub.db.tenancy import BANK, GROUP, BankOwned, Fence, GroupOwned, Scoped, by_bank, tenant_key
from hub.rights.scope import Scope
from hub.sites.rules import CensusMethod, Origin, PermissionState, SalvageState, Threat, Trend

BANK_OF_GROUP = "select bank_id from groups where id = " + GROUP  # noqa: S608  no input in it
SHARED_WITH_GROUP = "select site_id from site_grant where group_id = " + GROUP  # noqa: S608  no input in it


class SiteGrant(GroupOwned, Base):
    """A group is let in on a site: it opened the site itself, or the bank or an adoption led it there."""

    __tablename__ = "site_grant"
    __table_args__ = (
        GroupOwned.of_group(),
        BankOwned.inside("site", "site_id"),
        UniqueConstraint("group_id", "site_id"),
    )

    id: Mapped[Key]
    site_id: Mapped[UUID] = mapped_column(index=True)
    since: Mapped[datetime]


class Site(Scoped, Base):
    """Land with an owner. It belongs to the bank's work; a group sees it once it is let in."""

    __tablename__ = "site"
    __table_args__ = (tenant_key("bank_id"), CheckConstraint("radius_m > 0", "radius"))

    policy = f"bank_id = {BANK} or opened_by_group_id = {GROUP} or id in ({SHARED_WITH_GROUP})"

    id: Mapped[Key]
    bank_id: Mapped[UUID] = mapped_column(ForeignKey("bank.id"), index=True)
    opened_by_group_id: Mapped[UUID | None]
    district_id: Mapped[UUID] = mapped_column(ForeignKey("district.id"))
    ecoregion_id: Mapped[UUID | None] = mapped_column(ForeignKey("ecoregion.id"))
    name: Mapped[Short]
    locality: Mapped[Long]  # how to find it; never leaves the hub for taxa above secure
    owner_label: Mapped[Short]
    owner_email: Mapped[Short] = mapped_column(default="")
    habitat: Mapped[Short] = mapped_column(default="")
    latitude: Mapped[float]
    longitude: Mapped[float]
    radius_m: Mapped[float]
    outline: Mapped[dict[str, Any] | None] = mapped_column(Document)  # GeoJSON polygon, when drawn
    risks: Mapped[list[Any] | None] = mapped_column(Document)  # values of Risk; None: nobody has said
    risk_note: Mapped[Long]
    protected_area: Mapped[bool | None]  # if so, collecting needs a permit whatever the taxon
    own_consent_needed: Mapped[bool | None]  # a community’s beside the owner’s; None: nobody has said
    version: Mapped[int] = mapped_column()

    __mapper_args__ = {"version_id_col": version}

    @classmethod
    def fence(cls, scope: Scope) -> Fence:
        group_id = scope.own_group_id
        if group_id is None:
            return by_bank(scope.own_bank_id)
        return lambda rows: or_(
            rows.opened_by_group_id == group_id,
            rows.id.in_(select(SiteGrant.site_id).where(SiteGrant.group_id == group_id)),
        )


class SiteShared(Scoped):
    """Rows about a site, seen by its bank and by every group that is let in on the site."""

    bank_id: Mapped[UUID] = mapped_column(index=True)
    site_id: Mapped[UUID] = mapped_column(index=True)

    policy = f"bank_id = {BANK} or site_id in ({SHARED_WITH_GROUP})"

    @classmethod
    def fence(cls, scope: Scope) -> Fence:
        group_id = scope.own_group_id
        if group_id is None:
            return by_bank(scope.own_bank_id)
        return lambda rows: rows.site_id.in_(select(SiteGrant.site_id).where(SiteGrant.group_id == group_id))


class Permission(SiteShared, Base):
    """The owner's permission to collect at a site, with its dates, conditions and signed file."""

    __tablename__ = "permission"
    __table_args__ = (BankOwned.inside("site", "site_id"), CheckConstraint("ends_on >= starts_on", "dates"))

    id: Mapped[Key]
    state: Mapped[PermissionState] = mapped_column(choice(PermissionState), default=PermissionState.TO_ASK)
    asked_on: Mapped[date | None]
    asked_by_group_id: Mapped[UUID | None]
    answered_on: Mapped[date | None]
    withdrawn_on: Mapped[date | None]  # from this day on it holds no more
    starts_on: Mapped[date | None]
    ends_on: Mapped[date | None]
    conditions: Mapped[Long]
    signed_file: Mapped[Short] = mapped_column(default="")  # key in the file store
    noted_at: Mapped[datetime]
    version: Mapped[int] = mapped_column()

    __mapper_args__ = {"version_id_col": version}


class Permit(Scoped, Base):
    """An authority's licence with a cap, for one taxon, one site, or both.

    Whoever collects must know it: a group sees its bank's permits for a taxon anywhere, and those for sites
    on which it is let in.
    """

    __tablename__ = "permit"
    __table_args__ = (BankOwned.inside("site", "site_id"), CheckConstraint("ends_on >= starts_on", "dates"))

    policy = (
        f"bank_id = {BANK} or site_id in ({SHARED_WITH_GROUP})"
        f" or (site_id is null and bank_id in ({BANK_OF_GROUP}))"
    )
    policy_for_new = policy_for_change = f"bank_id = {BANK}"

    id: Mapped[Key]
    bank_id: Mapped[UUID] = mapped_column(index=True)
    taxon_id: Mapped[UUID | None] = mapped_column(ForeignKey("taxon.id"), index=True)
    site_id: Mapped[UUID | None] = mapped_column(index=True)
    authority: Mapped[Short]
    number: Mapped[Short]
    starts_on: Mapped[date]
    ends_on: Mapped[date]
    cap_seeds: Mapped[int | None]
    conditions: Mapped[Long]
    ended_on: Mapped[date | None]  # withdrawn by the authority; from this day on it holds no more

    @classmethod
    def fence(cls, scope: Scope) -> Fence:
        group_id, bank_id = scope.own_group_id, scope.bank_id
        if group_id is None:
            return by_bank(scope.own_bank_id)
        return lambda rows: or_(
            rows.site_id.in_(select(SiteGrant.site_id).where(SiteGrant.group_id == group_id)),
            and_(rows.site_id.is_(None), rows.bank_id == bank_id),
        )

    @classmethod
    def fence_for_writing(cls, scope: Scope) -> Fence:
        return by_bank(scope.own_bank_id)

    def is_written_by(self, scope: Scope) -> bool:
        return self.bank_id == scope.own_bank_id


class Population(SiteShared, Base):
    """Plants of one taxon at one site."""

    __tablename__ = "population"
    __table_args__ = (
        BankOwned.inside("site", "site_id"),
        tenant_key("bank_id"),
        UniqueConstraint("bank_id", "code"),
    )

    id: Mapped[Key]
    taxon_id: Mapped[UUID] = mapped_column(ForeignKey("taxon.id"), index=True)
    code: Mapped[Short]  # the bank's short name for it, e.g. "ARN-MON 03"
    label: Mapped[Short]
    latitude: Mapped[float]
    longitude: Mapped[float]
    uncertainty_m: Mapped[float]
    origin: Mapped[Origin] = mapped_column(choice(Origin), default=Origin.UNKNOWN)
    identity_verified: Mapped[bool] = mapped_column(default=False)
    trend: Mapped[Trend] = mapped_column(choice(Trend), default=Trend.UNKNOWN)
    threat: Mapped[Threat] = mapped_column(choice(Threat), default=Threat.UNKNOWN)
    threat_note: Mapped[Long]
    # Years in which seed was taken, as far as the hub's own ledger does not know: None when nobody has said.
    years_collected_before: Mapped[list[Any] | None] = mapped_column(Document)
    retired_at: Mapped[datetime | None]
    version: Mapped[int] = mapped_column()

    __mapper_args__ = {"version_id_col": version}


class Census(SiteShared, Base):
    """One dated count of a population. Never edited: a new count is a new census."""

    __tablename__ = "census"
    __table_args__ = (
        BankOwned.inside("population", "population_id"),
        CheckConstraint("plants >= 0", "plants"),
        CheckConstraint("empty_share between 0 and 1", "empty_share"),
        CheckConstraint("immature_share between 0 and 1", "immature_share"),
    )

    id: Mapped[Key]
    population_id: Mapped[UUID] = mapped_column(index=True)
    counted_on: Mapped[date]
    method: Mapped[CensusMethod] = mapped_column(choice(CensusMethod))
    plants: Mapped[int]
    plants_low: Mapped[int | None]  # 95 % interval, where the method gives one
    plants_high: Mapped[int | None]
    fruiting_plants: Mapped[int | None]
    fruits_per_plant: Mapped[float | None]
    fruits_per_plant_se: Mapped[float | None]  # standard error of the mean
    plants_counted: Mapped[int | None]  # those whose fruits were counted
    seeds_per_fruit: Mapped[float | None]  # filled and undamaged
    seeds_per_fruit_se: Mapped[float | None]
    poor_year: Mapped[bool | None]  # few fruits, or little filled seed
    empty_share: Mapped[float | None]  # of the seeds cut, empty or damaged
    immature_share: Mapped[float | None]
    disease_seen: Mapped[bool | None]
    note: Mapped[Long]
    noted_at: Mapped[datetime]


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


class Salvage(SiteShared, Base):
    """The case that a population is doomed: dated evidence, the owner's word and the curator's decision."""

    __tablename__ = "salvage"
    __table_args__ = (BankOwned.inside("population", "population_id"),)

    id: Mapped[Key]
    population_id: Mapped[UUID] = mapped_column(index=True)
    state: Mapped[SalvageState] = mapped_column(choice(SalvageState), default=SalvageState.ASKED)
    evidence: Mapped[Long]
    evidence_on: Mapped[date]
    evidence_file: Mapped[Short] = mapped_column(default="")
    loss_expected_on: Mapped[date | None]
    owner_agreed_on: Mapped[date | None]
    decided_at: Mapped[datetime | None]
    decided_by: Mapped[UUID | None]
    reason: Mapped[Long]
    asked_at: Mapped[datetime]
