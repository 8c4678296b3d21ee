"""A smooth curve through a germination test: how much comes up at most, by when half of that, how steeply.

A seed is only known to have come up between two counts, and those that never did may be alive or
dead; the likelihood uses just that. Share up by day t: d / (1 + (t / T50)^-b).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from hub.science.germination.counts import LONGEST_TEST_DAYS, GerminationTest
from hub.science.germination.likelihood import LOG_SLOPES, Likelihood, Shape
from hub.science.germination.profile import UNSETTLED, Range, profile_of
from hub.science.germination.sources import CURVE
from hub.science.quantity import Estimate, Unit, checked_level, within
from hub.words import Refused, say

FEWEST_COUNTS = 3
"""Through seed seen at two counts only, a curve can be as steep as one likes."""


@dataclass(frozen=True)
class GerminationCurve:
    """The fitted curve: share that comes up at most, days until half of that, and the slope.

    ``slope`` is the power of time by which the odds of being up grow.
    """

    share: Estimate
    half_time: Estimate
    slope: Estimate
    log_likelihood: float

    def up_by(self, day: float) -> float:
        """Share (0 to 1) of the seeds sown that is up by a day (0 to 3650)."""
        within(day, say("The day"), Unit.DAYS, 0, LONGEST_TEST_DAYS)
        shape = Shape(math.log(self.half_time.value), math.log(self.slope.value))
        return self.share.value * shape.up_by(day)


def fit_curve(test: GerminationTest, *, level: float = 0.95) -> GerminationCurve:
    """The likeliest curve through a test, with profile likelihood intervals.

    ``Refused`` when seed came up at fewer than three counts, or the counts do not settle a curve.
    """
    checked_level(level)
    if len(test.cumulative) < FEWEST_COUNTS:
        raise Refused(
            say("A curve needs seed coming up at {n} counts or more. Count more often.", n=FEWEST_COUNTS)
        )
    profile = profile_of(Likelihood(test))
    return GerminationCurve(
        share=_ceiling(profile.ceiling(level), test, level),
        half_time=_settled(profile.log_half(level), profile.counts.halves, Unit.DAYS, level),
        slope=_settled(profile.log_slope(level), LOG_SLOPES, Unit.NUMBER, level),
        log_likelihood=profile.highest,
    )


def _ceiling(share: Range, test: GerminationTest, level: float) -> Estimate:
    good, tested = test.result
    if share.high < 1 or good == tested:
        return Estimate(share.value, Unit.SHARE, share.low, share.high, level, CURVE)
    still = say("By these counts all of the seed may come up yet. Only a longer test could tell.")
    return Estimate(share.value, Unit.SHARE, share.low, 1.0, level, CURVE, (still,))


def _settled(log: Range, bounds: tuple[float, float], unit: Unit, level: float) -> Estimate:
    """A figure from its logarithm, if the counts bound it from both sides."""
    if log.low <= bounds[0] or log.high >= bounds[1]:
        raise Refused(UNSETTLED)
    low, value, high = map(math.exp, log)
    return Estimate(value, unit, low, high, level, CURVE)
