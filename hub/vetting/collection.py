"""The collection: what a group says of one day's collecting, as one document. Pure; what the checks read.

Counts are whole plants, fruits and seeds. Moments are local to the bank's zone where only a time of day was
written down. A *fruit* is whatever a volunteer picks in one piece.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, fields
from datetime import date, time
from typing import Any

from hub.protocols.stored import restored, stored
from hub.taxa.closed_lists import Worded
from hub.words import say


class Handling(Worded):
    """Seed kept apart by mother, or all together."""

    BY_MOTHER = "by_mother", say("by mother: a bag for each plant")
    BULK = "bulk", say("in bulk: all plants together")


class Container(Worded):
    """What the seed was carried in. The values are those that the sheets ask for, and the common mistakes."""

    PAPER_BAG = "paper_bag", say("paper or cloth bag")
    VENTED_BOX = "vented_box", say("open bag in a rigid box, kept cool")
    COVERED_TRAY = "covered_tray", say("folded paper bag, or tray under net")
    MESH_SACK = "mesh_sack", say("open mesh sack")
    PACKET = "packet", say("folded paper packet")
    MOIST_BAG = "moist_bag", say("vented plastic bag with damp sawdust, peat or vermiculite")
    PLASTIC_BAG = "plastic_bag", say("closed plastic bag")
    SEALED_JAR = "sealed_jar", say("sealed jar or tin")
    OTHER = "other", say("something else")


class AfterCare(Worded):
    """What was done with the seed after collecting."""

    HANDED_OVER = "handed_over", say("nothing: brought or sent to the bank as it was")
    AIR_DRIED = "air_dried", say("dried in the air, in the shade")
    GEL_DRIED = "gel_dried", say("dried over silica gel in a closed jar")
    KEPT_MOIST = "kept_moist", say("kept moist and cool")
    OTHER = "other", say("something else")


class DrynessProof(Worded):
    """How the group knows that the seed was dry."""

    NONE = "none", say("not checked")
    CARD = "card", say("humidity card")
    HYGROMETER = "hygrometer", say("hygrometer")
    WEIGHT = "weight", say("weight no longer falling")


@dataclass(frozen=True)
class Tally:
    """What was counted on and taken from one mother."""

    flag: str
    ripe_fruits: int | None = None
    fruits_taken: int = 0
    seeds: int | None = None  # estimate, where the group made one


@dataclass(frozen=True)
class Bulk:
    """What was taken from all plants together."""

    plants: int
    fruits_taken: int | None = None
    ripe_fruits_per_plant: float | None = None


@dataclass(frozen=True)
class CutTest:
    """Seeds cut open in the field."""

    cut: int
    filled: int
    damaged: int = 0


@dataclass(frozen=True)
class Voucher:
    """A pressed specimen, and where it is."""

    number: str
    kept_at: str = ""


@dataclass(frozen=True)
class Collection:
    """Everything handed in about one collection, except the photographs."""

    collected_on: date
    people: int
    latitude: float
    longitude: float
    uncertainty_m: float
    handling: Handling
    total_seeds: int  # best estimate of the seeds handed in, without those cut open
    container: Container
    after_care: AfterCare
    started_at: time | None = None
    finished_at: time | None = None
    crew_id: str | None = None
    tallies: tuple[Tally, ...] = ()
    bulk: Bulk | None = None
    plants_seen: int | None = None  # plants of the population that day
    plants_fruiting: int | None = None
    first_ripe_on: date | None = None
    already_shedding: bool | None = None
    visits_before: int | None = None
    cut_test: CutTest | None = None
    seeds_per_fruit: float | None = None
    drying_from: date | None = None
    drying_days: float | None = None
    dryness: DrynessProof = DrynessProof.NONE
    dryness_rh_pct: float | None = None  # relative humidity over the seed, at room temperature
    frozen: bool = False
    frozen_on: date | None = None
    reached_bank_on: date | None = None
    hours_to_bank: float | None = None
    identified_by: str = ""
    voucher: Voucher | None = None
    weather: str = ""
    notes: str = ""

    @property
    def seeds_taken(self) -> int:
        """Seeds that left the plants: those handed in and those cut open to look at them."""
        return self.total_seeds + (self.cut_test.cut if self.cut_test else 0)

    @property
    def mothers(self) -> int:
        """Plants that seed was taken from."""
        if self.handling is Handling.BY_MOTHER:
            return sum(1 for tally in self.tallies if tally.fruits_taken or tally.seeds)
        return self.bulk.plants if self.bulk else 0

    @property
    def fruits_taken(self) -> int | None:
        """Whole fruits taken, where they were counted."""
        if self.handling is Handling.BY_MOTHER:
            return sum(tally.fruits_taken for tally in self.tallies)
        return self.bulk.fruits_taken if self.bulk else None

    @classmethod
    def from_loaded(cls, data: Mapping[str, Any]) -> Collection:
        """Make one from what ``CollectionSchema`` loaded."""
        parts: dict[str, Any] = {name: data[name] for name in names_of(cls) if data.get(name) is not None}
        for name, kind in {"bulk": Bulk, "cut_test": CutTest, "voucher": Voucher}.items():
            if parts.get(name):
                parts[name] = kind(**parts[name])
        parts["tallies"] = tuple(Tally(**tally) for tally in parts.get("tallies", ()))
        return cls(**parts)

    def as_document(self) -> dict[str, Any]:
        """Plain JSON, as ``CollectionSchema`` dumps it: what a revision keeps for good."""
        return dict(stored(self))

    @classmethod
    def from_document(cls, document: Mapping[str, Any]) -> Collection:
        """Read a revision back."""
        return restored(cls, document)


def most_by_year(collections: Iterable[Collection]) -> dict[int, int]:
    """The most seeds that any revision says were taken in each year, as the ledger holds it."""
    most: dict[int, int] = {}
    for each in collections:
        year = each.collected_on.year
        most[year] = max(most.get(year, 0), each.seeds_taken)
    return most


def names_of(kind: type) -> list[str]:
    return [each.name for each in fields(kind)]
