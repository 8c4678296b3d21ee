"""The likeliest curve through a germination test, and how far each of its figures can move.

The ceiling that suits a shape best is known by formula, so that the search is never for more than
half time and slope. An end of an interval is where the best curve with that one figure held fast
is too unlikely (Wilks); where no such end is found, the bound of the search stands for it.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple

from hub.science.germination.half_time import day_of
from hub.science.germination.likelihood import LOG_SLOPES, Likelihood, Shape
from hub.science.quantity import normal_deviate
from hub.words import Refused, say

UNSETTLED = say("These counts do not settle a curve. Count more often, or for longer.")

LOWEST_CEILING = 1e-4
"""Of the share that came up: so much less is never likely."""

FIRST_LOG_SLOPE = math.log(5.0)
"""Where the search for the slope starts; where it ends does not hang on it."""


class Range(NamedTuple):
    """A figure between the ends of its interval."""

    low: float
    value: float
    high: float


@dataclass(frozen=True)
class Profile:
    """The best curve through some counts, as its three figures are moved one at a time."""

    counts: Likelihood
    best: Shape

    @property
    def highest(self) -> float:
        """Logarithm of the greatest likelihood."""
        return self.counts.log(self.best, self.counts.ceiling(self.best))

    def ceiling(self, level: float) -> Range:
        """The share that comes up at most."""
        value = self.counts.ceiling(self.best)
        lowest = LOWEST_CEILING * value
        return self._range(self._with_ceiling, value, (lowest, 1.0), level)

    def log_half(self, level: float) -> Range:
        """Logarithm of the days until half of that is up."""
        return self._range(self._with_half, self.best.log_half, self.counts.halves, level)

    def log_slope(self, level: float) -> Range:
        """Logarithm of the slope."""
        return self._range(self._with_slope, self.best.log_slope, LOG_SLOPES, level)

    def _with_ceiling(self, ceiling: float) -> float:
        return _search(lambda shape: self.counts.log(shape, ceiling), self.best)[1]

    def _with_half(self, log_half: float) -> float:
        return _along(LOG_SLOPES, lambda log_slope: _likely(self.counts, Shape(log_half, log_slope)))

    def _with_slope(self, log_slope: float) -> float:
        return _along(self.counts.halves, lambda log_half: _likely(self.counts, Shape(log_half, log_slope)))

    def _range(
        self, held: Callable[[float], float], value: float, bounds: tuple[float, float], level: float
    ) -> Range:
        from scipy.optimize import brentq

        limit = self.highest - normal_deviate(level) ** 2 / 2

        def above(figure: float) -> float:
            return held(figure) - limit

        low, high = (
            bound if above(bound) >= 0 else float(brentq(above, bound, value, xtol=1e-7)) for bound in bounds
        )
        return Range(low, value, high)


def profile_of(counts: Likelihood) -> Profile:
    """Find the best curve, from where the counts show its half at first sight.

    ``Refused`` when the best would lie beyond all reason.
    """
    middle = day_of(counts.test, counts.test.total / 2)
    start = Shape(math.log(middle), FIRST_LOG_SLOPE)
    best, _ = _search(lambda shape: _likely(counts, shape), start)
    for log, (lowest, highest) in zip(best, (counts.halves, LOG_SLOPES), strict=True):
        if not lowest < log < highest:
            raise Refused(UNSETTLED)
    return Profile(counts, best)


def _likely(counts: Likelihood, shape: Shape) -> float:
    return counts.log(shape, counts.ceiling(shape))


def _search(likely: Callable[[Shape], float], start: Shape) -> tuple[Shape, float]:
    """The likeliest shape, and how likely, by the simplex of Nelder and Mead."""
    from scipy.optimize import minimize

    found = minimize(
        lambda point: -likely(Shape(*map(float, point))),
        start,
        method="Nelder-Mead",
        options={"xatol": 1e-7, "fatol": 1e-9, "maxiter": 2000},
    )
    return Shape(*map(float, found.x)), -float(found.fun)


def _along(bounds: tuple[float, float], likely: Callable[[float], float]) -> float:
    """The greatest likelihood along one figure."""
    from scipy.optimize import minimize_scalar

    return -float(minimize_scalar(lambda figure: -likely(figure), bounds=bounds, method="bounded").fun)
