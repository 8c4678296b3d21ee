"""Taxa with their standings, ecoregions, seasons and the wanted list."""

from __future__ import annotations

from datetime import date
from enum import StrEnum
from typing import Any
from uuid import UUID

from sqlalchemy import CheckConstraint, ForeignKey, Index, String, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from hub.db.base import Base, Document, Key, Long, Short, choice
from hub.taxa.rules import CareClass, FruitType, LifeForm, StorageBehaviour


class Difficulty(StrEnum):
    """How hard a species is to collect well."""

    EASY = "easy"
    MEDIUM = "medium"
    HARD = "hard"


class Evidence(StrEnum):
    """How good the source of a species fact is."""

    PUBLISHED = "published"
    SECONDARY = "secondary"
    MEMORY = "memory"
    DEFAULT = "default"


class Taxon(Base):
    """A species or a taxon below it, with the traits that the protocol rules ask for. Shared by all banks."""

    __tablename__ = "taxon"
    __table_args__ = (Index("ix_taxon_search", "search_key"),)

    id: Mapped[Key]
    scientific_name: Mapped[Short] = mapped_column(unique=True)  # with authorship, as given
    canonical: Mapped[Short]  # without authorship
    search_key: Mapped[Short]
    family: Mapped[Short]
    vernacular: Mapped[Short]
    care_class: Mapped[CareClass] = mapped_column(
        choice(CareClass)
    )  # read from the standings, kept here to sort
    life_form: Mapped[LifeForm] = mapped_column(choice(LifeForm))
    fruit_type: Mapped[FruitType] = mapped_column(choice(FruitType))
    storage: Mapped[StorageBehaviour] = mapped_column(choice(StorageBehaviour))
    storage_source: Mapped[Long]
    storage_evidence: Mapped[Evidence] = mapped_column(choice(Evidence))
    # Of the next eight, None means that nobody has said; that no hazard is known is an empty list.
    hazards: Mapped[list[Any] | None] = mapped_column(Document)  # values of taxa.rules.Hazard
    native: Mapped[bool | None]
    dioecious: Mapped[bool | None]
    clonal: Mapped[bool | None]
    two_year_ripening: Mapped[bool | None]
    masting: Mapped[bool | None]
    persistent_seed_bank: Mapped[bool | None]
    international_trade_listed: Mapped[bool | None]
    seed_mass_mg: Mapped[float | None]
    seeds_per_fruit: Mapped[float | None]
    collect_from_bbch: Mapped[str | None] = mapped_column(String(2))
    flowers_from: Mapped[int | None]  # months, 1 to 12
    ripens_from: Mapped[int | None]
    ripens_to: Mapped[int | None]
    ripeness_note: Mapped[Long]
    diagnostic_parts: Mapped[Long]
    lookalikes: Mapped[Long]
    difficulty: Mapped[Difficulty] = mapped_column(choice(Difficulty), default=Difficulty.MEDIUM)
    suits_school: Mapped[bool] = mapped_column(default=False)
    sensitivity: Mapped[
        int | None
    ]  # category 1 to 4 of locality generalisation; None leaves it to the care class
    note: Mapped[Long]
    version: Mapped[int] = mapped_column()

    __mapper_args__ = {"version_id_col": version}


class StandingKind(StrEnum):
    """What kind of statement about a taxon's rarity this is."""

    RANK = "rank"
    CATEGORY = "category"
    LISTING = "listing"


class Standing(Base):
    """One authority's rank, category or legal listing of a taxon, as given, with its date and source."""

    __tablename__ = "standing"

    id: Mapped[Key]
    taxon_id: Mapped[UUID] = mapped_column(ForeignKey("taxon.id"), index=True)
    kind: Mapped[StandingKind] = mapped_column(choice(StandingKind))
    text: Mapped[Short]  # "G5T2", "VU B2ab(iii)", or for a listing a value of taxa.rules.LegalList
    place: Mapped[Short]
    authority: Mapped[Short]
    as_of: Mapped[date | None]
    permit_needed: Mapped[bool] = mapped_column(default=False)


class Ecoregion(Base):
    """A unit of ecology, with its polygon (GeoJSON geometry, WGS 84)."""

    __tablename__ = "ecoregion"
    __table_args__ = (UniqueConstraint("scheme", "code"),)

    id: Mapped[Key]
    region_id: Mapped[UUID] = mapped_column(ForeignKey("region.id"), index=True)
    scheme: Mapped[str] = mapped_column(String(40))
    code: Mapped[str] = mapped_column(String(20))
    name: Mapped[Short]
    geometry: Mapped[dict[str, Any]] = mapped_column(Document)


class TaxonEcoregion(Base):
    """A taxon grows in this ecoregion."""

    __tablename__ = "taxon_ecoregion"

    taxon_id: Mapped[UUID] = mapped_column(ForeignKey("taxon.id"), primary_key=True)
    ecoregion_id: Mapped[UUID] = mapped_column(ForeignKey("ecoregion.id"), primary_key=True)


class Season(Base):
    """One collecting year of one bank. Public to read; only the bank's curators change it."""

    __tablename__ = "season"
    __table_args__ = (UniqueConstraint("bank_id", "year"),)

    id: Mapped[Key]
    bank_id: Mapped[UUID] = mapped_column(ForeignKey("bank.id"), index=True)
    year: Mapped[int]
    opens_on: Mapped[date]
    closes_on: Mapped[date]
    lapses_on: Mapped[date]  # adoptions without any activity by this day lapse


class Wanted(Base):
    """One species on one season's list, with how much it matters."""

    __tablename__ = "wanted"
    __table_args__ = (
        UniqueConstraint("season_id", "taxon_id"),
        CheckConstraint("priority between 1 and 3", "priority"),
    )

    id: Mapped[Key]
    season_id: Mapped[UUID] = mapped_column(ForeignKey("season.id"), index=True)
    taxon_id: Mapped[UUID] = mapped_column(ForeignKey("taxon.id"), index=True)
    priority: Mapped[int] = mapped_column(default=2)  # 1 first
    note: Mapped[Long]


class Need(Base):
    """How many populations of a wanted species, from which ecoregion and district (either may be open)."""

    __tablename__ = "need"
    __table_args__ = (CheckConstraint("populations >= 1", "populations"),)

    id: Mapped[Key]
    wanted_id: Mapped[UUID] = mapped_column(ForeignKey("wanted.id", ondelete="CASCADE"), index=True)
    populations: Mapped[int]
    ecoregion_id: Mapped[UUID | None] = mapped_column(ForeignKey("ecoregion.id"))
    district_id: Mapped[UUID | None] = mapped_column(ForeignKey("district.id"))
