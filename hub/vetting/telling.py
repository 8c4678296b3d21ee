"""How each thing in a collection is called and written for people, on every page that shows one. Pure."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from hub.taxa.closed_lists import Worded
from hub.vetting.collection import Collection, Tally
from hub.words import Words, say

YES, NO = say("yes"), say("no")

# Every member of a collection that is one value, in the order of the form, with its unit where it has one.
NAMES: dict[str, tuple[Words, str | Words]] = {
    "collected_on": (say("Day of collecting"), ""),
    "started_at": (say("Began at"), ""),
    "finished_at": (say("Ended at"), ""),
    "people": (say("People"), ""),
    "crew_id": (say("Crew"), ""),
    "weather": (say("Weather"), ""),
    "latitude": (say("Latitude"), "°"),
    "longitude": (say("Longitude"), "°"),
    "uncertainty_m": (say("Position could be off by"), "m"),
    "handling": (say("Seed was kept"), ""),
    "total_seeds": (say("Seeds handed in"), say("seeds")),
    "plants_seen": (say("Plants seen that day"), say("plants")),
    "plants_fruiting": (say("Plants in fruit that day"), say("plants")),
    "first_ripe_on": (say("First ripe fruit seen on"), ""),
    "already_shedding": (say("Seed was falling already"), ""),
    "visits_before": (say("Visits before"), ""),
    "seeds_per_fruit": (say("Good seeds in a fruit, mean"), say("seeds")),
    "container": (say("Carried in"), ""),
    "after_care": (say("Done with the seed"), ""),
    "drying_from": (say("Drying since"), ""),
    "drying_days": (say("Dried for"), say("days")),
    "dryness": (say("Dryness shown by"), ""),
    "dryness_rh_pct": (say("Relative humidity over the seed"), "%"),
    "frozen": (say("Frozen"), ""),
    "frozen_on": (say("Frozen on"), ""),
    "reached_bank_on": (say("Reached the bank on"), ""),
    "hours_to_bank": (say("From plant to bank"), say("hours")),
    "identified_by": (say("Identified by"), ""),
    "notes": (say("Notes"), ""),
}
PARTS: dict[str, dict[str, tuple[Words, str | Words]]] = {
    "bulk": {
        "plants": (say("Plants taken from"), say("plants")),
        "fruits_taken": (say("Fruits taken"), say("fruits")),
        "ripe_fruits_per_plant": (say("Ripe fruits a plant, mean"), say("fruits")),
    },
    "cut_test": {
        "cut": (say("Seeds cut open"), say("seeds")),
        "filled": (say("of them filled and sound"), say("seeds")),
        "damaged": (say("of them damaged"), say("seeds")),
    },
    "voucher": {
        "number": (say("Pressed specimen"), ""),
        "kept_at": (say("Specimen kept"), ""),
    },
}
# The parts follow these.
AFTER = {"handling": "bulk", "seeds_per_fruit": "cut_test", "identified_by": "voucher"}
TALLY: dict[str, tuple[Words, str | Words]] = {
    "flag": (say("Mother"), ""),
    "ripe_fruits": (say("Ripe fruits"), say("fruits")),
    "fruits_taken": (say("Fruits taken"), say("fruits")),
    "seeds": (say("Seeds"), say("seeds")),
}
Told = Words | str | None


def told(value: Any, unit: str | Words = "") -> Told:
    """A value as people read it in their own language, with its unit; None where nothing was said."""
    if value is None or value == "":
        return None
    if isinstance(value, bool):
        return YES if value else NO
    if isinstance(value, Worded):
        return value.words
    if unit == "°":
        return f"{value:.6f}".rstrip("0").rstrip(".") + "°"
    if isinstance(value, str):
        return value
    return say("{value} {unit}", value=value, unit=unit) if unit else say("{value}", value=value)


def facts(collection: Collection) -> Iterator[tuple[str, Words, Told]]:
    """Everything in a collection but its tallies, in the order of the form: path, name, how it reads."""
    for member, (name, unit) in NAMES.items():
        yield member, name, told(getattr(collection, member), unit)
        if member in AFTER:
            part = AFTER[member]
            yield from part_facts(part, getattr(collection, part))


def part_facts(part: str, value: Any) -> Iterator[tuple[str, Words, Told]]:
    for inner, (name, unit) in PARTS[part].items():
        yield f"{part}-{inner}", name, told(getattr(value, inner, None), unit)


def tally_facts(tally: Tally) -> Iterator[tuple[str, Words, Told]]:
    for inner, (name, unit) in TALLY.items():
        yield inner, name, told(getattr(tally, inner), unit)
