"""Warmth that counts: degree days between a lower threshold and, where there is one, an upper."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate

from hub.science.phenology.sources import AVERAGES, SINGLE_SINE
from hub.science.quantity import Estimate, Unit, within
from hub.words import Refused, say

COLDEST_C, HOTTEST_C = -80.0, 70.0
"""No air is colder or hotter; beyond it the figure is taken for a slip."""

MOST_DAYS = 4000


@dataclass(frozen=True)
class Day:
    """The lowest and the highest temperature of one day, in °C."""

    low_c: float
    high_c: float

    def __post_init__(self) -> None:
        within(self.low_c, say("The lowest temperature"), Unit.DEGREES_CELSIUS, COLDEST_C, HOTTEST_C)
        within(self.high_c, say("The highest temperature"), Unit.DEGREES_CELSIUS, COLDEST_C, HOTTEST_C)
        if self.low_c > self.high_c:
            raise Refused(say("The lowest temperature of a day is above its highest."))


@dataclass(frozen=True)
class Thresholds:
    """Below the lower nothing grows; above the upper, where one is given, no faster. In °C."""

    lower_c: float
    upper_c: float | None = None

    def __post_init__(self) -> None:
        within(self.lower_c, say("The lower threshold"), Unit.DEGREES_CELSIUS, COLDEST_C, HOTTEST_C)
        if self.upper_c is not None:
            within(self.upper_c, say("The upper threshold"), Unit.DEGREES_CELSIUS, self.lower_c, HOTTEST_C)


def single_sine(day: Day, thresholds: Thresholds) -> float:
    """Degree days of one day, its temperature taken for one sine from low to high and back."""
    above = _above(day, thresholds.lower_c)
    return above if thresholds.upper_c is None else above - _above(day, thresholds.upper_c)


def _above(day: Day, threshold: float) -> float:
    """The area of the sine above a threshold, over one day."""
    middle, half = (day.high_c + day.low_c) / 2, (day.high_c - day.low_c) / 2
    if day.high_c <= threshold:
        return 0.0
    if day.low_c >= threshold:
        return middle - threshold
    crossing = math.asin((threshold - middle) / half)
    return ((middle - threshold) * (math.pi / 2 - crossing) + half * math.cos(crossing)) / math.pi


def simple_average(day: Day, thresholds: Thresholds) -> float:
    """Degree days of one day from its mean, its highest temperature capped at the upper threshold."""
    upper = HOTTEST_C if thresholds.upper_c is None else thresholds.upper_c
    return max((day.low_c + min(day.high_c, upper)) / 2 - thresholds.lower_c, 0.0)


def clipped_average(day: Day, thresholds: Thresholds) -> float:
    """The same with lowest and highest each held between the thresholds first."""
    upper = HOTTEST_C if thresholds.upper_c is None else thresholds.upper_c
    low, high = (min(max(each, thresholds.lower_c), upper) for each in (day.low_c, day.high_c))
    return (low + high) / 2 - thresholds.lower_c


def gathered(days: Sequence[Day], thresholds: Thresholds) -> list[float]:
    """Degree days by the end of each of one to 4,000 days in a row, by single sine. None may be missing."""
    within(len(days), say("The number of days"), Unit.DAYS, 1, MOST_DAYS)
    return list(accumulate(single_sine(day, thresholds) for day in days))


def degree_days(days: Sequence[Day], thresholds: Thresholds) -> Estimate:
    """All degree days of these days together."""
    return Estimate.exact(gathered(days, thresholds)[-1], Unit.DEGREE_DAYS, SINGLE_SINE)


def degree_days_of_means(days: Sequence[Day], thresholds: Thresholds) -> Estimate:
    """The same from daily means, for those who know no more of a day."""
    within(len(days), say("The number of days"), Unit.DAYS, 1, MOST_DAYS)
    return Estimate.exact(sum(simple_average(day, thresholds) for day in days), Unit.DEGREE_DAYS, AVERAGES)
