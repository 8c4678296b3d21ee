"""A lot that is dying along a line in probits: how it stands on a day, and when it reaches a mark."""

from __future__ import annotations

import math
from dataclasses import dataclass
from statistics import NormalDist

from hub.science.longevity.equation import DAYS_A_YEAR, GREATEST_SHARE, LEAST_SHARE, Mark
from hub.science.longevity.sources import PROBIT_FIT
from hub.science.quantity import Estimate, Unit, within
from hub.words import Refused, Words, say

LONGEST_DAYS = 200 * DAYS_A_YEAR
LEAST_TARGET = 1e-9
"""A smaller share alive is none."""

FAR_BEYOND = 2.0
"""An answer at more than so many times the tested time is carried far beyond the tests (our own default)."""


@dataclass(frozen=True)
class Decline:
    """A fitted line: K_i and the slope in probits a day, with their covariance and the deviate to use.

    ``last_days`` is the day of the last test, beyond which every answer is carried on.
    """

    k_i: float
    slope: float
    covariance: tuple[tuple[float, float], tuple[float, float]]
    deviate: float
    scatter: float
    last_days: float
    level: float

    @property
    def initial(self) -> Estimate:
        """K_i: viability on the first day, in probits."""
        reach = self._reach(0.0)
        return self._estimate(self.k_i, Unit.PROBITS, self.k_i - reach, self.k_i + reach)

    @property
    def days_per_probit(self) -> Estimate:
        """Days in which viability falls by one probit (sigma)."""
        reach = self.deviate * math.sqrt(self.covariance[1][1])
        low, high = (-1 / (self.slope + side) for side in (-reach, reach))
        return self._estimate(-1 / self.slope, Unit.DAYS, low, high)

    def viability_at(self, days: float) -> Estimate:
        """Share alive (0 to 1) on a day (0 to 200 years)."""
        at = within(days, say("The day"), Unit.DAYS, 0, LONGEST_DAYS)
        middle, reach = self.k_i + self.slope * at, self._reach(at)
        value, low, high = map(NormalDist().cdf, (middle, middle - reach, middle + reach))
        return self._estimate(value, Unit.SHARE, low, high, *self._carried(at))

    def time_to(self, wanted_share: float, mark: Mark) -> Estimate:
        """Years from the first day until viability is a share (0.001 to 0.999) of all, or of the initial.

        Limits after Fieller, 0 where one would lie before the first day. ``Refused`` when viability was
        below the mark from the first.
        """
        wanted = within(
            wanted_share, say("The viability waited for"), Unit.SHARE, LEAST_SHARE, GREATEST_SHARE
        )
        share = wanted * (NormalDist().cdf(self.k_i) if mark is Mark.OF_INITIAL else 1)
        target = NormalDist().inv_cdf(max(share, LEAST_TARGET))
        fall = self.k_i - target
        if fall < 0:
            raise Refused(say("Viability is below that already."))
        moves = 1 - wanted * self._height(self.k_i) / self._height(target) if mark is Mark.OF_INITIAL else 1
        value = fall / -self.slope
        years = [max(days, 0.0) / DAYS_A_YEAR for days in (value, *self._fieller(fall, moves))]
        return self._estimate(years[0], Unit.YEARS, years[1], years[2], *self._carried(value))

    def _fieller(self, fall: float, moves: float) -> tuple[float, float]:
        """Limits of fall / -slope, where the fall moves by ``moves`` with K_i."""
        (k_k, k_s), (_, s_s) = self.covariance
        squared = self.deviate**2
        down = self.slope**2 - squared * s_s
        middle = -fall * self.slope + squared * moves * k_s
        root = math.sqrt(max(middle**2 - down * (fall**2 - squared * moves**2 * k_k), 0.0))
        return (middle - root) / down, (middle + root) / down

    @staticmethod
    def _height(probits: float) -> float:
        return NormalDist().pdf(probits)

    def _reach(self, days: float) -> float:
        (k_k, k_s), (_, s_s) = self.covariance
        return self.deviate * math.sqrt(max(k_k + 2 * days * k_s + days**2 * s_s, 0.0))

    def _carried(self, days: float) -> tuple[Words, ...]:
        if days <= FAR_BEYOND * self.last_days:
            return ()
        return (say("This is carried far beyond the last test, so it is an order of magnitude."),)

    def _estimate(self, value: float, unit: Unit, low: float, high: float, *own: Words) -> Estimate:
        warnings = own
        if self.scatter > 1:
            warnings += (say("The tests scatter more than luck allows, so the interval is widened."),)
        return Estimate(value, unit, min(low, value), max(high, value), self.level, PROBIT_FIT, warnings)
