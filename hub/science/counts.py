"""How many seeds a lot holds, from the weights of counted replicates."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import fmean, stdev, variance

from hub.science.distributions import student_deviate
from hub.science.quantity import MOST, Estimate, Unit, checked_level, within
from hub.science.sources import COUNTED, REPLICATE_WEIGHTS
from hub.words import Refused, Words, say

LIGHTEST = 1e-6
"""A microgram, in grams: no replicate of seeds weighs less."""

VARIATION_LIMIT = 4.0
CHAFFY_VARIATION_LIMIT = 6.0
"""Largest coefficients of variation in per cent, the second for chaffy seed (both from memory)."""

COUNT_ALL_BELOW = 800
"""Eight replicates of a hundred: a smaller lot is counted one by one."""


@dataclass(frozen=True)
class Weighing:
    """Replicates of equally many counted seeds: two or more weights in g, eight of 100 by custom.

    ``balance_step_g`` is the last digit of the balance, whose rounding adds to the spread.
    """

    weights_g: tuple[float, ...]
    seeds_each: int = 100
    balance_step_g: float = 0.0

    def __post_init__(self) -> None:
        """Refuse what cannot be a weighing: ``OutOfRange`` names the figure."""
        within(len(self.weights_g), say("The number of replicates"), Unit.VALUES, 2, 1000)
        within(self.seeds_each, say("The seeds in a replicate"), Unit.SEEDS, 1, MOST)
        within(self.balance_step_g, say("The step of the balance"), Unit.GRAMS, 0, 1000)
        for weight in self.weights_g:
            within(weight, say("The weight of a replicate"), Unit.GRAMS, LIGHTEST, MOST)

    @property
    def mean_g(self) -> float:
        """Mean weight of a replicate in g."""
        return fmean(self.weights_g)

    @property
    def variation_percent(self) -> float:
        """Coefficient of variation of the replicates in per cent, rounding of the balance included."""
        return 100 * math.sqrt(self._variance) / self.mean_g

    @property
    def _variance(self) -> float:
        return variance(self.weights_g) + self.balance_step_g**2 / 12

    def is_even(self, *, chaffy: bool = False) -> bool:
        """Whether the replicates agree well enough to reckon with."""
        return self.variation_percent <= (CHAFFY_VARIATION_LIMIT if chaffy else VARIATION_LIMIT)

    def mean_interval(self, level: float) -> tuple[float, float]:
        """The ends of the interval of the mean in g; refused when it would reach down to nothing."""
        replicates = len(self.weights_g)
        error = student_deviate(checked_level(level), replicates - 1) * math.sqrt(self._variance / replicates)
        if error >= self.mean_g:
            raise Refused(say("These weights differ too much to reckon with. Weigh more replicates."))
        return self.mean_g - error, self.mean_g + error


def thousand_seed_weight(weighing: Weighing, *, chaffy: bool = False, level: float = 0.95) -> Estimate:
    """Weight of a thousand seeds in g."""
    per_thousand = 1000 / weighing.seeds_each
    low, high = (per_thousand * end for end in weighing.mean_interval(level))
    value = per_thousand * weighing.mean_g
    return Estimate(
        value, Unit.GRAMS, low, high, level, REPLICATE_WEIGHTS, _evenness_warnings(weighing, chaffy)
    )


def seeds_by_weight(
    weighing: Weighing,
    lot_weight_g: float,
    *,
    purity: float = 1.0,
    chaffy: bool = False,
    level: float = 0.95,
) -> Estimate:
    """Seeds in a lot of ``lot_weight_g`` grams, of which ``purity`` (0 to 1) by weight is seed.

    Lot and replicates must be equally dry. The interval is that of the mean weight turned over,
    so it reaches a little further up than down.
    """
    grams = within(lot_weight_g, say("The weight of the lot"), Unit.GRAMS, 0, MOST)
    pure = grams * within(purity, say("The purity"), Unit.SHARE, 0, 1)
    light, heavy = weighing.mean_interval(level)
    value, low, high = (pure * weighing.seeds_each / weight for weight in (weighing.mean_g, heavy, light))
    warnings = _evenness_warnings(weighing, chaffy)
    if value < COUNT_ALL_BELOW:
        warnings += (say("So small a lot is better counted seed by seed."),)
    return Estimate(value, Unit.SEEDS, low, high, level, REPLICATE_WEIGHTS, warnings)


def _evenness_warnings(weighing: Weighing, chaffy: bool) -> tuple[Words, ...]:
    if weighing.is_even(chaffy=chaffy):
        return ()
    return (say("The replicates differ too much. Weigh eight more and leave out the stray ones."),)


def without_strays(weights_g: Sequence[float]) -> tuple[float, ...]:
    """The weights, in order, that lie within two standard deviations of the mean of all of them."""
    within(len(weights_g), say("The number of replicates"), Unit.VALUES, 2, 1000)
    for weight in weights_g:
        within(weight, say("The weight of a replicate"), Unit.GRAMS, LIGHTEST, MOST)
    mean, reach = fmean(weights_g), 2 * stdev(weights_g)
    return tuple(weight for weight in weights_g if abs(weight - mean) <= reach)


def counted_seeds(count: int) -> Estimate:
    """A lot counted one by one, as small lots are: exact."""
    return Estimate.exact(within(count, say("The number of seeds"), Unit.SEEDS, 0, MOST), Unit.SEEDS, COUNTED)
