"""The evidence: everything the checks may look at for one collection. Pure; gathered once, then frozen."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any
from uuid import UUID
from zoneinfo import ZoneInfo

from hub.protocols.sheet import Sheet
from hub.science.distance import Position
from hub.sites.rules import Paper
from hub.taxa.rules import CareClass, StorageBehaviour
from hub.vetting.collection import Collection
from hub.vetting.rules import PhotographKind

Polygon = Mapping[str, Any]  # GeoJSON geometry, WGS 84


@dataclass(frozen=True)
class SheetFacts:
    """The sheet that the collection was made under, beside what is printed on it."""

    number: str
    sheet: Sheet
    issued_on: date
    ended_on: date | None = None  # superseded or withdrawn on this day
    withdrawn: bool = False
    reason: str = ""  # why it ended
    closes_on: date | None = None  # last day of its season


@dataclass(frozen=True)
class TaxonFacts:
    """The species, as the hub knows it today."""

    name: str
    care_class: CareClass
    storage: StorageBehaviour
    ripens_from: int | None = None  # months, 1 to 12
    ripens_to: int | None = None
    seeds_per_fruit: float | None = None
    diagnostic_parts: str = ""
    range: tuple[Polygon, ...] = ()  # ecoregions it grows in; empty when nobody has said


@dataclass(frozen=True)
class Place:
    """Where the population grows, and what it lies in."""

    population: str  # its code
    position: Position
    uncertainty_m: float
    site: str
    site_position: Position
    site_radius_m: float
    site_outline: Polygon | None = None
    districts: tuple[Polygon, ...] = ()  # of the whole region


@dataclass(frozen=True)
class PermissionHeld:
    """The owner's permission that held on the day."""

    starts_on: date | None
    ends_on: date | None
    conditions: str = ""


@dataclass(frozen=True)
class PermitHeld:
    """A permit that held on the day. ``used_seeds`` is all taken under it, this collection included."""

    authority: str
    number: str
    starts_on: date
    ends_on: date
    cap_seeds: int | None = None
    used_seeds: int = 0
    conditions: str = ""


@dataclass(frozen=True)
class Papers:
    """Permission and permits on the day of collecting."""

    permission: PermissionHeld | None = None
    permits: tuple[PermitHeld, ...] = ()
    missing: tuple[Paper, ...] = ()  # needed by taxon or land, and held by nobody


@dataclass(frozen=True)
class Count:
    """One census of the population; plants, and fruits and seeds where they were counted."""

    counted_on: date
    plants: int
    fruiting_plants: int | None = None
    fruits_per_plant: float | None = None
    seeds_per_fruit: float | None = None


@dataclass(frozen=True)
class Account:
    """Seeds of this population and year, all groups together, this collection included in what was taken."""

    allowance_seeds: int
    reserved_seeds: int
    taken_seeds: int


@dataclass(frozen=True)
class PhotographFacts:
    """What a camera noted beside one photograph; a clock without a zone was read as the bank’s own."""

    id: UUID
    kind: PhotographKind
    position: Position | None = None
    taken_at: datetime | None = None


@dataclass(frozen=True)
class Earlier:
    """Another collection of the same taxon in the same bank: approved, or handed in and waiting."""

    number: str
    collection: Collection
    approved: bool
    same_population: bool
    same_group: bool  # only then may the group be told its number


@dataclass(frozen=True)
class Evidence:
    """One revision of one submission, and all that it is held against."""

    number: str
    revision: int
    handed_in_at: datetime
    zone: ZoneInfo  # the bank's
    collection: Collection
    sheet: SheetFacts
    taxon: TaxonFacts
    place: Place
    papers: Papers
    censuses: tuple[Count, ...] = ()  # oldest first
    account: Account | None = None
    entered_seeds: int = 0  # the most that any revision said of that year, this one included
    photographs: tuple[PhotographFacts, ...] = ()
    earlier: tuple[Earlier, ...] = ()  # newest first, at most some hundreds

    @property
    def case(self) -> Mapping[str, Any]:
        """The inputs of the sheet, as JSON."""
        return self.sheet.sheet.case
