"""The season's seed crop of a population, with its interval."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from math import exp, hypot

from hub.protocols.case import Case

_Z90 = 1.6449  # both ends of a 90 % interval: each is passed one time in twenty
_WIDEST = 20.0  # beyond this the lower bound is nothing and the upper one means nothing


@dataclass(frozen=True)
class Crop:
    """Good seeds of one population in one season; ``lower`` and ``upper`` bound a 90 % interval.

    Without standard errors there is no interval, and ``lower`` is the estimate itself.
    """

    seeds: Fraction
    lower: Fraction
    upper: Fraction
    measured: bool


def exact(number: float) -> Fraction:
    """The decimal number that people wrote, so that 10 % of 50 is 5 and never 4.999."""
    return Fraction(str(number))


def crop_of(case: Case) -> Crop | None:
    """Fruiting plants × ripe fruits per plant × good seeds per fruit, or ``None`` until all are counted.

    The interval takes the three as independent: cv² is the sum of their squared relative
    errors, and the bounds are S·exp(∓1.6449·cv), which can never fall below zero.
    """
    factors = (
        (case.population.fruiting_plants, case.population.fruiting_plants_se),
        (case.crop.ripe_fruits_per_plant, case.crop.ripe_fruits_per_plant_se),
        (case.crop.good_seeds_per_fruit, case.crop.good_seeds_per_fruit_se),
    )
    seeds = Fraction(1)
    for value, _ in factors:
        if value is None:
            return None
        seeds *= exact(value)
    spread = min(_WIDEST, _Z90 * relative_error(factors))
    lower, upper = (seeds * exact(exp(side * spread)) for side in (-1, 1))
    return Crop(seeds, lower, upper, measured=spread > 0)


def relative_error(factors: Iterable[tuple[float | None, float | None]]) -> float:
    """Relative standard error of a product of independent estimates, counting unmeasured ones as exact."""
    return hypot(*(error / value for value, error in factors if value and error))
