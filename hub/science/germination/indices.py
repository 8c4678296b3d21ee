"""The usual figures of a germination test: how much came up, how fast, and how evenly.

Those that none coming up leaves undefined are None then. Variance, speed, uncertainty and
synchrony describe the test itself and so carry no interval.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from hub.science.distributions import student_deviate
from hub.science.germination.counts import GerminationTest
from hub.science.germination.half_time import HalfRule, half_time
from hub.science.germination.sources import INDICES
from hub.science.proportions import wilson_share
from hub.science.quantity import Estimate, Unit, checked_level
from hub.words import say


@dataclass(frozen=True)
class GerminationIndices:
    """All figures of one test."""

    final_share: Estimate
    half_time_coolbear: Estimate | None
    half_time_farooq: Estimate | None
    mean_time: Estimate | None
    variance: Estimate | None
    speed: Estimate | None
    uncertainty: Estimate | None
    synchrony: Estimate | None


def germination_indices(test: GerminationTest, *, level: float = 0.95) -> GerminationIndices:
    """Every figure of one test at once."""
    return GerminationIndices(
        final_share=final_share(test, level=level),
        half_time_coolbear=half_time(test, HalfRule.COOLBEAR, level=level),
        half_time_farooq=half_time(test, HalfRule.FAROOQ, level=level),
        mean_time=mean_time(test, level=level),
        variance=variance_of_time(test),
        speed=speed(test),
        uncertainty=uncertainty(test),
        synchrony=synchrony(test),
    )


def final_share(test: GerminationTest, *, level: float = 0.95) -> Estimate:
    """Share (0 to 1) of the seeds sown that came up, Wilson interval; seeds taken out do not count."""
    share = wilson_share(test.result, level=level)
    if not test.removed:
        return share
    return replace(share, warnings=(say("Of the seeds sown, those taken out are left out of the share."),))


def mean_time(test: GerminationTest, *, midway: bool = False, level: float = 0.95) -> Estimate | None:
    """Mean days to germination, with Student’s interval; None when no seed came up.

    By custom a seed counts on the day it was seen, which is late by half an interval on average;
    ``midway`` counts it in the middle between two counts.
    """
    checked_level(level)
    if not test.total:
        return None
    mean, variance = _moments(test, midway)
    late = () if midway else (say("Seeds count on the day they were seen, so the mean comes out late."),)
    if test.total == 1:
        lone = say("One seed says nothing about how the others would differ.")
        return Estimate.exact(mean, Unit.DAYS, INDICES, *late, lone)
    error = student_deviate(level, test.total - 1) * math.sqrt(variance / test.total)
    return Estimate(mean, Unit.DAYS, max(mean - error, 0.0), mean + error, level, INDICES, late)


def variance_of_time(test: GerminationTest) -> Estimate | None:
    """Variance of the days to germination among the seeds; None for fewer than two."""
    if test.total < 2:
        return None
    return Estimate.exact(_moments(test, midway=False)[1], Unit.SQUARE_DAYS, INDICES)


def _moments(test: GerminationTest, midway: bool) -> tuple[float, float]:
    """Mean and variance of the days; the variance of a single seed is 0."""
    seen = [((start + end) / 2 if midway else end, count) for start, end, count in test.intervals]
    mean = math.fsum(count * day for day, count in seen) / test.total
    squares = math.fsum(count * (day - mean) ** 2 for day, count in seen)
    return mean, squares / max(test.total - 1, 1)


def speed(test: GerminationTest) -> Estimate | None:
    """Seeds a day (Maguire’s index): seeds over the day they were seen, summed. None for no seed."""
    if not test.total:
        return None
    value = math.fsum(count / day for _, day, count in test.intervals)
    return Estimate.exact(value, Unit.SEEDS_PER_DAY, INDICES)


def uncertainty(test: GerminationTest) -> Estimate | None:
    """How spread over the counts the seeds came up, in bits: 0 when all at one. None for no seed."""
    if not test.total:
        return None
    shares = [count / test.total for _, _, count in test.intervals]
    return Estimate.exact(abs(math.fsum(share * math.log2(share) for share in shares)), Unit.BITS, INDICES)


def synchrony(test: GerminationTest) -> Estimate | None:
    """Chance (0 to 1) that two seeds were seen at the same count; None for fewer than two seeds."""
    if test.total < 2:
        return None
    together = sum(math.comb(count, 2) for _, _, count in test.intervals)
    return Estimate.exact(together / math.comb(test.total, 2), Unit.SHARE, INDICES)
