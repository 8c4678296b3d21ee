"""Adoptions, the populations each one holds, and the running count of stages."""

from __future__ import annotations

from datetime import datetime
from uuid import UUID

from sqlalchemy import CheckConstraint, ForeignKey, Index, String, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from hub.adoptions.rules import AdoptionState, Stage
from hub.db.base import Base, Key, Long, choice
from hub.db.tenancy import BankOwned, GroupOwned, tenant_key


class Adoption(GroupOwned, Base):
    """A group's claim on one species in one region for one season."""

    __tablename__ = "adoption"
    __table_args__ = (
        GroupOwned.of_group(),
        tenant_key("group_id"),
        Index("ix_adoption_queue", "bank_id", "state", "asked_at", "id"),
        Index("ix_adoption_region", "region_id", "season_id"),
    )

    id: Mapped[Key]
    season_id: Mapped[UUID] = mapped_column(ForeignKey("season.id"), index=True)
    taxon_id: Mapped[UUID] = mapped_column(ForeignKey("taxon.id"), index=True)
    region_id: Mapped[UUID] = mapped_column(ForeignKey("region.id"))
    district_id: Mapped[UUID] = mapped_column(ForeignKey("district.id"))
    state: Mapped[AdoptionState] = mapped_column(choice(AdoptionState), default=AdoptionState.REQUESTED)
    stage: Mapped[Stage] = mapped_column(choice(Stage), default=Stage.ASKED)
    # Group, season and taxon while the adoption holds: a group holds a species once.
    holding_key: Mapped[str | None] = mapped_column(String(80), unique=True)
    wish: Mapped[Long]  # what the group wrote when it asked
    reason: Mapped[Long]  # what the curator or the group wrote at the last move
    asked_at: Mapped[datetime]
    moved_at: Mapped[datetime]  # the last change of state or stage: what "stalled" is measured from
    version: Mapped[int] = mapped_column()

    __mapper_args__ = {"version_id_col": version}


class AdoptedPopulation(GroupOwned, Base):
    """A population that an adoption collects from."""

    __tablename__ = "adopted_population"
    __table_args__ = (
        GroupOwned.of_group(),
        GroupOwned.inside("adoption", "adoption_id"),
        BankOwned.inside("population", "population_id"),
        UniqueConstraint("adoption_id", "population_id"),
    )

    id: Mapped[Key]
    adoption_id: Mapped[UUID] = mapped_column(index=True)
    population_id: Mapped[UUID] = mapped_column(index=True)
    # Season and population while one group alone may hold it: the database refuses a second holder.
    sole_key: Mapped[str | None] = mapped_column(String(80), unique=True)
    since: Mapped[datetime]
    accessioned_at: Mapped[datetime | None]  # when seed of it became an accession
    banked: Mapped[int] = mapped_column(default=0)  # its accessions that are stored or living now


class StageCount(Base):
    """How many adoptions stand at a stage, by season, species and district: kept with every change.

    Progress pages read this instead of the adoptions, so that their cost never grows with what was handed in.
    It names no group and no place, and is open to all.
    """

    __tablename__ = "stage_count"
    __table_args__ = (CheckConstraint("adoptions >= 0", "adoptions"),)

    season_id: Mapped[UUID] = mapped_column(ForeignKey("season.id"), primary_key=True)
    taxon_id: Mapped[UUID] = mapped_column(ForeignKey("taxon.id"), primary_key=True)
    district_id: Mapped[UUID] = mapped_column(ForeignKey("district.id"), primary_key=True)
    stage: Mapped[Stage] = mapped_column(choice(Stage), primary_key=True)
    adoptions: Mapped[int] = mapped_column(default=0)
