"""How likely the counts of a germination test are under a log-logistic curve with a ceiling."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

from hub.science.germination.counts import GerminationTest

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

LOG_SLOPES = (math.log(0.05), math.log(1000.0))
FAR = math.log(100.0)
"""The half is looked for up to a hundred times before the first seed and after the last count."""

LEAST = 1e-300
"""Stands for a chance too small to be held, whose logarithm is wanted."""


class Shape(NamedTuple):
    """When and how steeply: the logarithms of the half time in days and of the slope."""

    log_half: float
    log_slope: float

    def odds(self, day: float) -> float:
        """Logarithm of the odds that a seed that will come up is up by then."""
        return math.exp(self.log_slope) * (math.log(day) - self.log_half) if day else -math.inf

    def up_by(self, day: float) -> float:
        """Share of the seeds that will come up that is up by then."""
        odds = self.odds(day)
        return 1 / (1 + math.exp(-odds)) if odds > 0 else math.exp(odds) / (1 + math.exp(odds))


@dataclass(frozen=True)
class Likelihood:
    """The counts of one test, made ready to be compared with many curves."""

    test: GerminationTest

    @cached_property
    def _log_days(self) -> tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]]:
        import numpy as np

        start, end, count = np.array(list(self.test.intervals), dtype=np.float64).T
        with np.errstate(divide="ignore"):
            return np.log(start), np.log(end), count

    @cached_property
    def halves(self) -> tuple[float, float]:
        """The logarithms of days between which the half time is looked for."""
        first = next(self.test.intervals)[1]
        return math.log(first) - FAR, math.log(self.test.days[-1]) + FAR

    def ceiling(self, shape: Shape) -> float:
        """The likeliest share to come up at most, for a curve of this shape."""
        good, tested = self.test.result
        return min(good / max(tested * shape.up_by(self.test.days[-1]), LEAST), 1.0)

    def log(self, shape: Shape, ceiling: float) -> float:
        """Logarithm of the likelihood of the counts."""
        import numpy as np
        from scipy.special import expit

        start, end, count = self._log_days
        slope = math.exp(shape.log_slope)
        early, late = slope * (start - shape.log_half), slope * (end - shape.log_half)
        side = np.where(early > 0, -1, 1)  # the tail in which the difference keeps its digits
        came_up = np.abs(expit(side * late) - expit(side * early))
        good, tested = self.test.result
        never = 1 - ceiling * shape.up_by(self.test.days[-1])
        found = float((count * np.log(np.maximum(came_up, LEAST))).sum()) + good * math.log(ceiling)
        return found + (tested - good) * math.log(max(never, LEAST))
