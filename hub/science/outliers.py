"""Whether a figure is out of the ordinary beside past figures of the same kind.

A prompt to look, never a proof: unusual figures can be right. The measure is the distance from
the median in median absolute deviations, which a few wild values in the past cannot hide.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from enum import Enum
from statistics import fmean, median

from hub.science.quantity import MOST, Source, Unit, within
from hub.science.sources import MEDIAN_DEVIATION
from hub.words import say

ENOUGH_PAST = 8
"""With fewer past figures nothing is said (our own default)."""

LIMIT = 3.5
"""Modified z-score beyond which a figure is unusual (from memory: Iglewicz & Hoaglin 1993)."""

SMALLEST_ON_LOG = 1e-6
"""The least figure that a ratio scale takes."""


class Scale(Enum):
    """How figures of a kind differ: by so much (dates, per cents), or so many times (counts)."""

    DIFFERENCE = "difference"
    RATIO = "ratio"


@dataclass(frozen=True)
class Comparison:
    """A figure beside the past ones, in their own unit: their median and their usual range."""

    value: float
    median: float
    usual_low: float
    usual_high: float
    past: int
    source: Source = MEDIAN_DEVIATION

    @property
    def unusual(self) -> bool:
        """Whether the figure lies outside the usual range."""
        return not self.usual_low <= self.value <= self.usual_high


def compare_with_past(
    value: float, past: Sequence[float], *, scale: Scale = Scale.DIFFERENCE
) -> Comparison | None:
    """Set a figure beside past ones; None when they cannot tell, being too few or all the same.

    On the ratio scale every figure must be above 0. Days count from a fixed day before the
    season: the measure knows nothing of the turn of the year.
    """
    lowest = SMALLEST_ON_LOG if scale is Scale.RATIO else -float(MOST)
    for figure in (value, *past):
        within(figure, say("A figure to compare"), Unit.VALUES, lowest, MOST)
    there, back = _SCALES[scale]
    seen = [there(figure) for figure in past]
    deviation = _deviation(seen)
    if len(seen) < ENOUGH_PAST or deviation == 0:
        return None
    middle, reach = median(seen), LIMIT * deviation
    return Comparison(value, back(middle), back(middle - reach), back(middle + reach), len(seen))


def _deviation(seen: Sequence[float]) -> float:
    """The standard deviation as the middle half shows it, or the mean deviation when half are alike.

    The factors make both equal the standard deviation of normal figures; 0 when all are the same.
    """
    if not seen:
        return 0.0
    middle = median(seen)
    away = [abs(figure - middle) for figure in seen]
    return 1.482602 * median(away) or 1.253314 * fmean(away)


def _from_log(figure: float) -> float:
    """Back from the logarithm, kept within what a float holds."""
    return math.exp(max(min(figure, 700.0), -700.0))


_SCALES: dict[Scale, tuple[Callable[[float], float], Callable[[float], float]]] = {
    Scale.DIFFERENCE: (float, float),
    Scale.RATIO: (math.log, _from_log),
}
