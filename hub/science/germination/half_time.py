"""When half of the seeds that germinate are up, by the two rules in use."""

from __future__ import annotations

import math
from enum import StrEnum

from hub.science.germination.counts import GerminationTest
from hub.science.germination.sources import COOLBEAR, FAROOQ
from hub.science.quantity import Estimate, Unit, normal_deviate
from hub.words import Words, say


class HalfRule(StrEnum):
    """Which seed is the middle one: (N + 1) / 2 or N / 2 of N."""

    COOLBEAR = "coolbear"
    FAROOQ = "farooq"


def half_time(
    test: GerminationTest, rule: HalfRule = HalfRule.COOLBEAR, *, level: float = 0.95
) -> Estimate | None:
    """Days until half of the seeds that came up in all were up (T50); None when none came up.

    Between two counts the seeds are taken to come up evenly. The interval is that of the median by
    order statistics, widened to the counts between which its ends were seen.
    """
    deviate, seeds = normal_deviate(level), test.total
    if not seeds:
        return None
    middle = (seeds + 1) / 2 if rule is HalfRule.COOLBEAR else seeds / 2
    reach = deviate * math.sqrt(seeds) / 2
    first, last = seeds / 2 - reach, seeds / 2 + 1 + reach
    low, _ = _span_of(test, max(first, 1))
    _, high = _span_of(test, min(last, seeds))
    source = COOLBEAR if rule is HalfRule.COOLBEAR else FAROOQ
    return Estimate(day_of(test, middle), Unit.DAYS, low, high, level, source, _warnings(test, middle, first))


def _place_of(test: GerminationTest, rank: float) -> int:
    """The first count, of those at which seeds came up, by which so many were up."""
    return next(place for place, seeds in enumerate(test.cumulative) if seeds >= rank)


def _span_of(test: GerminationTest, rank: float) -> tuple[float, float]:
    start, end, _ = list(test.intervals)[_place_of(test, rank)]
    return start, end


def day_of(test: GerminationTest, rank: float) -> float:
    """When this many seeds (1 to all, or a part of one) were up, on a line between two counts."""
    place = _place_of(test, rank)
    start, end, count = list(test.intervals)[place]
    before = test.cumulative[place] - count
    return start + (rank - before) * (end - start) / count


def _warnings(test: GerminationTest, middle: float, first: float) -> tuple[Words, ...]:
    warnings = []
    if _span_of(test, middle)[0] == 0:
        warnings.append(
            say("Half was up by the first count, so the day is drawn on a line from sowing. Count earlier.")
        )
    if middle in test.cumulative[:-1]:
        warnings.append(say("Exactly half was up for a while: any day until the next seed came up would do."))
    if first < 1:
        warnings.append(say("So few seeds came up that the interval is less sure than it says."))
    return tuple(warnings)
