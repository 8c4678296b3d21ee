"""The season's seed crop of a population, from what the case counted."""

from __future__ import annotations

from fractions import Fraction

from hub.protocols.case import Case
from hub.science.quantity import Estimate, Evidence, Source, Unit, normal_deviate
from hub.science.take import CROP_LEVEL, seed_crop

_COUNTED = Source("counted at the population", Evidence.ALGEBRA)


def exact(number: float) -> Fraction:
    """The decimal number that people wrote, so that 10 % of 50 is 5 and never 4.999."""
    return Fraction(str(number))


def crop_of(case: Case) -> Estimate | None:
    """Fruiting plants × ripe fruits per plant × good seeds per fruit, or ``None`` until all are counted.

    A count without a standard error is taken as it stands.
    """
    counted = (
        (case.population.fruiting_plants, case.population.fruiting_plants_se, Unit.PLANTS),
        (case.crop.ripe_fruits_per_plant, case.crop.ripe_fruits_per_plant_se, Unit.FRUITS),
        (case.crop.good_seeds_per_fruit, case.crop.good_seeds_per_fruit_se, Unit.SEEDS),
    )
    factors = [_estimate(value, error, unit) for value, error, unit in counted if value is not None]
    return seed_crop(factors) if len(factors) == len(counted) else None


def _estimate(value: float, error: float | None, unit: Unit) -> Estimate:
    reach = normal_deviate(CROP_LEVEL) * (error or 0)
    return Estimate(value, unit, value - reach, value + reach, CROP_LEVEL, _COUNTED)
