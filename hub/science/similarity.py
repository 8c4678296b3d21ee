"""How alike two collections of one taxon are: has the same one been handed in twice?

Every part of the answer can be shown. The weights and reaches are our own defaults.
"""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass
from datetime import date
from typing import NamedTuple

from hub.science.distance import Position, distance_m
from hub.science.quantity import MOST, Unit, within
from hub.words import Words, say

DAYS_APART = 8
"""From this many days apart the dates are not alike at all."""

METRES_APART = 1000.0
"""From this far apart, beyond what the positions leave uncertain, the places are not alike at all."""

SHARE_APART = 0.25
"""From this difference, as a share of the larger, the seed counts are not alike at all."""

LIKELY = 0.8
"""From this likeness on, a curator should look whether the two are one."""

ENOUGH_KNOWN = 0.5
"""Share of all weight that must be known before a likeness means anything."""


@dataclass(frozen=True)
class Collected:
    """What is known of one collection; None or an empty tuple where nothing is."""

    day: date
    position: Position | None = None
    uncertainty_m: float = 0.0
    seeds: int | None = None
    seeds_by_mother: tuple[int, ...] = ()


class Part(NamedTuple):
    """One thing compared: its likeness from 0 to 1, and how much it weighs."""

    what: Words
    likeness: float
    weight: float


@dataclass(frozen=True)
class Likeness:
    """The parts that could be compared, and their weighted mean."""

    parts: tuple[Part, ...]

    @property
    def score(self) -> float:
        """Weighted mean likeness of the known parts, from 0 to 1."""
        return math.fsum(part.likeness * part.weight for part in self.parts) / self._weight

    @property
    def likely_the_same(self) -> bool:
        """Whether enough is known, and it is alike enough, for somebody to look."""
        return self._weight >= ENOUGH_KNOWN * ALL_WEIGHT and self.score >= LIKELY

    @property
    def _weight(self) -> float:
        return math.fsum(part.weight for part in self.parts)


DAY_WEIGHT, PLACE_WEIGHT, SEEDS_WEIGHT, MOTHERS_WEIGHT = 1.0, 1.0, 2.0, 4.0
ALL_WEIGHT = DAY_WEIGHT + PLACE_WEIGHT + SEEDS_WEIGHT + MOTHERS_WEIGHT
"""Two groups may meet at one place and day, but hardly with the same tally from every mother."""


def likeness(one: Collected, other: Collected) -> Likeness:
    """Compare two collections of the same taxon, in either order; unknown parts are left out."""
    parts = [Part(say("Day"), _fading(abs((one.day - other.day).days), DAYS_APART), DAY_WEIGHT)]
    if one.position and other.position:
        apart = max(_metres(one.position, other.position) - _uncertainty(one) - _uncertainty(other), 0.0)
        parts.append(Part(say("Place"), _fading(apart, METRES_APART), PLACE_WEIGHT))
    if one.seeds is not None and other.seeds is not None:
        parts.append(Part(say("Seeds in all"), _alike(one.seeds, other.seeds), SEEDS_WEIGHT))
    if one.seeds_by_mother and other.seeds_by_mother:
        shared = _shared(one.seeds_by_mother, other.seeds_by_mother)
        parts.append(Part(say("Seeds from each mother"), shared, MOTHERS_WEIGHT))
    return Likeness(tuple(parts))


def _fading(apart: float, reach: float) -> float:
    """1 at no distance, falling evenly to 0 at the reach."""
    return max(1 - apart / reach, 0.0)


def _metres(one: Position, other: Position) -> float:
    """The distance, without loading the geometry library for one and the same position."""
    return 0.0 if one == other else distance_m(one, other)


def _uncertainty(collected: Collected) -> float:
    return within(collected.uncertainty_m, say("The uncertainty"), Unit.METRES, 0, MOST)


def _alike(one: int, other: int) -> float:
    for count in (one, other):
        within(count, say("The number of seeds"), Unit.SEEDS, 0, MOST)
    return _fading(abs(one - other), SHARE_APART * max(one, other, 1))


def _shared(one: tuple[int, ...], other: tuple[int, ...]) -> float:
    """Share of the tallies that find their equal on the other side, whatever their order."""
    pairs = (Counter(one) & Counter(other)).total()
    return 2 * pairs / (len(one) + len(other))
