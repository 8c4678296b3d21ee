"""The case: every fact the rules may ask about one taxon, at one population, in one season.

Each fact may be unknown: ``None``, or the ``unknown`` member of its list. An unknown fact
gives no permission; the sheet names what to ask. Counts are whole plants, fruits and seeds;
shares run from 0 to 1. A *fruit* is whatever a volunteer picks in one piece: a capsule, a
pod, a head, a cone, a catkin, a nut.
"""

# ruff: noqa: RUF009 — ``fact``, ``count`` and ``share`` answer with a dataclass field, which is safe as a default.

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from typing import Any

from hub.sites.rules import Paper
from hub.taxa.rules import CareClass, FruitType, Hazard, LifeForm, StorageBehaviour


class Trend(StrEnum):
    """Which way the number of plants has gone between censuses."""

    RISING = "rising"
    STABLE = "stable"
    FALLING = "falling"
    UNKNOWN = "unknown"


class SiteRisk(StrEnum):
    """What makes a site dangerous to people."""

    ROAD = "road"
    WATER = "water"
    CLIFF = "cliff"
    LIVESTOCK = "livestock"
    HUNTING = "hunting"
    MILITARY_LAND = "military_land"


def fact(
    says: str, *, default: Any = None, at_least: float | None = None, at_most: float | None = None
) -> Any:
    """A field with its meaning and bounds, which the JSON Schema of a case repeats."""
    return field(default=default, metadata={"says": says, "at_least": at_least, "at_most": at_most})


def count(says: str) -> Any:
    """A number that cannot be negative, unknown until somebody counts."""
    return fact(says, at_least=0, at_most=1_000_000_000)


def share(says: str) -> Any:
    """A part of a whole, from 0 to 1, unknown until somebody measures."""
    return fact(says, at_least=0, at_most=1)


@dataclass(frozen=True)
class TaxonFacts:
    """What is known of the species, wherever it grows."""

    name: str = fact("Scientific name", default="")
    common_name: str = fact("Common name", default="")
    care_class: CareClass = fact("Care class, the most careful of all ranks", default=CareClass.UNKNOWN)
    listed: bool | None = fact("On a legal list of protected plants here")
    native: bool | None = fact("Native to the region")
    life_form: LifeForm = fact("Life form", default=LifeForm.UNKNOWN)
    fruit_type: FruitType = fact("Fruit type", default=FruitType.UNKNOWN)
    storage: StorageBehaviour = fact("How the seed behaves when dried", default=StorageBehaviour.UNKNOWN)
    storage_confirmed: bool = fact("A curator confirmed the storage behaviour from a source", default=False)
    persistent_seed_bank: bool | None = fact("Seed lives on in the soil for years")
    clonal: bool | None = fact("Spreads by runners, roots or bulbs, so that many stems are one plant")
    dioecious: bool | None = fact("Male and female flowers are on separate plants")
    two_year_ripening: bool | None = fact("Fruit ripens in its second year")
    masts: bool | None = fact("Bears heavily in some years and hardly in others")
    hazards: tuple[Hazard, ...] | None = fact("How the plant can hurt people; empty when it cannot")
    trade_controlled: bool | None = fact("On an international list that controls trade")
    culturally_important: bool | None = fact("Important to an Indigenous or local culture")
    green_spores: bool | None = fact("Spores are green and live only for weeks")


@dataclass(frozen=True)
class PopulationFacts:
    """What is known of the plants at this site."""

    name: str = fact("Name or code of the population", default="")
    identity_verified: bool | None = fact("Somebody competent has confirmed the identification")
    wild_origin: bool | None = fact("The plants came by themselves: not sown, not planted")
    plants: int | None = count("Plants in the population")
    fruiting_plants: int | None = count("Plants that bear fruit this season")
    fruiting_plants_se: float | None = count("Standard error of the fruiting plants")
    trend: Trend = fact("Which way the number of plants has gone", default=Trend.UNKNOWN)
    severe_threat: bool | None = fact("A severe threat, short of certain loss")
    site_risks: tuple[SiteRisk, ...] | None = fact("Dangers of the site; empty when there are none")
    disease_known: bool | None = fact("A plant disease is known at the site")
    protected_area: bool | None = fact("The site lies in a protected area")
    indigenous_land: bool | None = fact("The site lies on Indigenous or tribal land")


@dataclass(frozen=True)
class CropFacts:
    """What was counted of this season's fruit and seed."""

    ripe_fruits_per_plant: float | None = count("Ripe fruits per fruiting plant over the season, mean")
    ripe_fruits_per_plant_se: float | None = count("Standard error of the ripe fruits per plant")
    good_seeds_per_fruit: float | None = count("Filled and undamaged seeds per fruit, mean")
    good_seeds_per_fruit_se: float | None = count("Standard error of the good seeds per fruit")
    plants_counted: int | None = count("Plants on which fruits were counted")
    poor_year: bool | None = fact("A poor seed year: few fruits or little filled seed")
    empty_share: float | None = share("Share of seeds empty or damaged in the cut test")
    immature_share: float | None = share("Share of seeds not yet mature")


@dataclass(frozen=True)
class HistoryFacts:
    """What was taken from this population before, and this season by all groups."""

    years_collected: tuple[int, ...] | None = fact("Earlier years in which seed was taken; empty when never")
    taken_seeds: int | None = count("Seeds taken this season by everybody so far")
    reserved_seeds: int | None = count("Seeds reserved this season by other groups")
    own_seeds: int = fact(
        "Of the seeds taken this season, those this group took", default=0, at_least=0, at_most=1_000_000_000
    )
    groups_here: int | None = fact(
        "Groups among which the allowance is shared; one where one alone may collect",
        at_least=1,
        at_most=10_000,
    )


@dataclass(frozen=True)
class PermissionFacts:
    """The landowner's answer. ``granted`` is ``None`` until there is one, ``False`` when refused."""

    granted: bool | None = fact("The owner has said yes in writing")
    since: date | None = fact("First day of the permission")
    until: date | None = fact("Last day of the permission")
    conditions: tuple[str, ...] = fact("The owner’s conditions, in the owner’s words", default=())


@dataclass(frozen=True)
class PermitFacts:
    """One licence of an authority."""

    authority: str = fact("Authority that gave the permit", default="")
    number: str = fact("Number of the permit", default="")
    since: date | None = fact("First day of the permit")
    until: date | None = fact("Last day of the permit")
    cap_seeds: int | None = count("Most seeds the permit allows; unknown when it names no number")
    used_seeds: int = fact(
        "Seeds already taken under the permit", default=0, at_least=0, at_most=1_000_000_000
    )
    conditions: tuple[str, ...] = fact("Conditions of the permit", default=())


@dataclass(frozen=True)
class SignOff:
    """A curator's consent to collect where the rules leave the decision to a curator."""

    by: str = fact("Curator who consents", default="")
    on: date | None = fact("Date of consent")
    share: float | None = share("Largest share of the season’s ripe seed the curator allows")


@dataclass(frozen=True)
class SalvageFacts:
    """A population that will be lost: who has approved taking all its seed, on what evidence."""

    curator: str = fact("Curator who approves", default="")
    owner: str = fact("Owner who approves", default="")
    evidence: str = fact("What shows that the population will be lost", default="")
    evidence_on: date | None = fact("Date of that evidence")


@dataclass(frozen=True)
class BankFacts:
    """The bank that issues the sheet, and its switches."""

    name: str = fact("Name of the bank", default="")
    home_freezing: bool = fact("The bank lets trained groups dry and freeze seed at home", default=False)


@dataclass(frozen=True)
class PartyFacts:
    """Who will go out."""

    group: str = fact("Name of the group", default="")
    pupils: bool | None = fact("Children will take part")
    crosses_border: bool | None = fact("Seed will cross a national border")


@dataclass(frozen=True)
class Case:
    """Everything the rules are asked about, and nothing else."""

    taxon: TaxonFacts
    population: PopulationFacts = field(default_factory=PopulationFacts)
    crop: CropFacts = field(default_factory=CropFacts)
    history: HistoryFacts = field(default_factory=HistoryFacts)
    permission: PermissionFacts = field(default_factory=PermissionFacts)
    permit_needed: bool | None = fact("The law or the land asks for a permit")
    permits: tuple[PermitFacts, ...] = fact("Permits held; every one must be valid", default=())
    missing_papers: tuple[Paper, ...] = fact(
        "Papers that law or land ask for and nobody holds; empty when there are none", default=()
    )
    sign_off: SignOff | None = fact("A curator’s consent, where one is needed")
    salvage: SalvageFacts | None = fact("Approval to take everything from a doomed population")
    bank: BankFacts = field(default_factory=BankFacts)
    party: PartyFacts = field(default_factory=PartyFacts)
    season: int | None = fact(
        "Collecting year; the year of the sheet when unknown", at_least=1900, at_most=2200
    )
