"""What every calculation in this package gives back: a figure with its unit, interval and source.

Ranges are closed and finite, so a caller's NaN or infinity is refused at the door and none can leave.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum, StrEnum
from statistics import NormalDist
from typing import TypeVar

from hub.words import Refused, Words, say

MOST = 10**9
"""No count, weight or area asked about here is larger; beyond it the input is taken for a slip."""

Number = TypeVar("Number", int, float)


class Unit(Enum):
    """The unit of a figure: its name here is for stores and programs, its value the words for readers."""

    ALLELES = say("alleles")
    BITS = say("bits")
    CELLS = say("grid cells")
    DATE = say("(a day)")
    DAYS = say("days")
    DEGREES = say("degrees")
    DEGREES_CELSIUS = say("°C")
    DEGREE_DAYS = say("degree days")
    DONORS = say("pollen donors")
    ECOREGIONS = say("ecoregions")
    FRUITS = say("fruits")
    GAMETES = say("gametes")
    GRAMS = say("g")
    GROUPS = say("groups")
    HOURS = say("hours")
    KILOMETRES = say("km")
    LOCI = say("loci")
    METRES = say("m")
    MOTHERS = say("mothers")
    NUMBER = say("(a plain number)")
    PERCENT = say("%")
    PLANTS = say("plants")
    PLOTS = say("plots")
    POINTS = say("points out of 1")
    POPULATIONS = say("populations")
    PROBITS = say("probits")
    RECORDS = say("records")
    SECONDS = say("seconds")
    SEEDS = say("seeds")
    SEEDS_PER_DAY = say("seeds a day")
    SHARE = say("as a share of 1")
    SPECIES = say("species")
    SQUARE_DAYS = say("days²")
    SQUARE_KILOMETRES = say("km²")
    SQUARE_METRES = say("m²")
    TIMES = say("times")
    VALUES = say("values")
    VISITS = say("visits")
    YEARS = say("years")
    ZONES = say("seed zones")


class Evidence(StrEnum):
    """How good a source is: only ``PUBLISHED`` may be printed as a citation."""

    PUBLISHED = "published"
    MEMORY = "from memory"
    ALGEBRA = "follows by calculation"
    OWN = "our own default"


@dataclass(frozen=True)
class Source:
    """Where a formula or a figure comes from, and whether it was read there."""

    citation: str
    evidence: Evidence


class OutOfRange(Refused):
    """A figure outside the range in which an answer means anything, in words for who typed it.

    Being a refusal, it reaches people as a sentence beside the field and never as a fault of the hub.
    """

    def __init__(self, quantity: Words, unit: Unit, low: float, high: float) -> None:
        super().__init__(
            say(
                "{quantity} must be from {low} to {high} {unit}.",
                quantity=quantity,
                low=low,
                high=high,
                unit=unit.value,
            )
        )
        self.quantity = quantity
        self.unit = unit
        self.low = low
        self.high = high


def within(value: Number, quantity: Words, unit: Unit, low: float, high: float) -> Number:
    """The value itself when it lies in the closed range; otherwise ``OutOfRange``, NaN included."""
    if not low <= value <= high:
        raise OutOfRange(quantity, unit, low, high)
    return value


@dataclass(frozen=True)
class Estimate:
    """A figure with the interval that holds the truth with probability ``level`` (two-sided).

    A figure that follows from its inputs without sampling has equal ends and level 1: see ``exact``.
    """

    value: float
    unit: Unit
    low: float
    high: float
    level: float
    source: Source
    warnings: tuple[Words, ...] = ()

    def __post_init__(self) -> None:
        """Hold the promise of this package: finite figures, each inside its own interval."""
        if not -math.inf < self.low <= self.value <= self.high < math.inf:
            raise ValueError(f"not an interval around its value: {self.low} {self.value} {self.high}")

    @classmethod
    def exact(cls, value: float, unit: Unit, source: Source, *warnings: Words) -> Estimate:
        """A figure that carries no sampling error of its own."""
        return cls(value, unit, value, value, 1.0, source, warnings)

    @property
    def standard_error(self) -> float:
        """Half the interval in normal deviates, in ``unit``; 0 for an exact figure.

        An interval by Student’s t gives a little more than its sample’s standard error, which is
        the wanted caution when few things were counted.
        """
        if self.low == self.high:
            return 0.0
        return (self.high - self.low) / (2 * normal_deviate(self.level))


def normal_deviate(level: float) -> float:
    """The standard normal deviate whose two-sided interval has probability ``level`` (0.5 to 0.9999)."""
    checked_level(level)
    return NormalDist().inv_cdf((1 + level) / 2)


def checked_level(level: float) -> float:
    """The confidence level itself, or ``OutOfRange`` when it is not from 0.5 to 0.9999."""
    return within(level, say("The confidence level"), Unit.SHARE, 0.5, 0.9999)
