"""How long seed of a known species keeps: v = K_i - p / sigma, sigma = 10^(K_E - C_W log m - C_H t - C_Q t²).

v and K_i are viability in normal deviates (probits), p is days, m moisture and t °C. The constants
are so unsure that each answer is an order of magnitude, and never a date.
"""

from __future__ import annotations

import math
from enum import StrEnum
from statistics import NormalDist

from hub.science.longevity.constants import LARGEST_K_E_ERROR, Constants
from hub.science.longevity.sources import EQUATION
from hub.science.longevity.store import Store, checked_temperature
from hub.science.quantity import Estimate, Unit, normal_deviate, within
from hub.words import Refused, Words, say

DAYS_A_YEAR = 365.25
LONGEST_DAYS = 1e6
LEAST_SHARE, GREATEST_SHARE = 0.001, 0.999


class Mark(StrEnum):
    """What a wanted viability is a share of: all seed, or the seed that was alive at first."""

    OF_ALL = "of all"
    OF_INITIAL = "of initial"


def days_per_probit(constants: Constants, store: Store, *, level: float = 0.95) -> Estimate:
    """Days in which viability falls by one normal deviate (sigma).

    The interval is that of K_E. ``OutOfRange`` below the temperature at which the equation turns over.
    """
    celsius = checked_temperature(store.temperature_c, constants.turn_over_c)
    moisture = constants.c_w * math.log10(store.counted_percent)
    value = 10 ** (constants.k_e - moisture - constants.c_h * celsius - constants.c_q * celsius**2)
    times = 10 ** (normal_deviate(level) * LARGEST_K_E_ERROR)
    return Estimate(value, Unit.DAYS, value / times, value * times, level, EQUATION, _warnings(store))


def viability_after(
    constants: Constants, store: Store, initial_share: float, days: float, *, level: float = 0.95
) -> Estimate:
    """Share alive after some days (0 to a million), from the share alive at first (0.001 to 0.999)."""
    initial = probit(initial_share)
    elapsed = within(days, say("The time in store"), Unit.DAYS, 0, LONGEST_DAYS)
    sigma = days_per_probit(constants, store, level=level)
    value, low, high = (
        NormalDist().cdf(initial - elapsed / life) for life in (sigma.value, sigma.low, sigma.high)
    )
    return Estimate(value, Unit.SHARE, low, high, level, EQUATION, sigma.warnings)


def time_to(
    constants: Constants,
    store: Store,
    initial_share: float,
    wanted_share: float,
    mark: Mark,
    *,
    level: float = 0.95,
) -> Estimate:
    """Years until viability has fallen to a share (0.001 to 0.999) of all seed, or of the initial viability.

    Half of all seed gives the usual half-life. ``Refused`` when viability is below the mark already.
    """
    fall = probits_to_fall(initial_share, wanted_share, mark)
    sigma = days_per_probit(constants, store, level=level)
    value, low, high = (fall * life / DAYS_A_YEAR for life in (sigma.value, sigma.low, sigma.high))
    return Estimate(value, Unit.YEARS, low, high, level, EQUATION, sigma.warnings)


def probits_to_fall(initial_share: float, wanted_share: float, mark: Mark) -> float:
    """Normal deviates between two viabilities (each 0.001 to 0.999), the second as ``mark`` says."""
    wanted = within(wanted_share, say("The viability waited for"), Unit.SHARE, LEAST_SHARE, GREATEST_SHARE)
    target = wanted * initial_share if mark is Mark.OF_INITIAL else wanted
    fall = probit(initial_share) - NormalDist().inv_cdf(target)
    if fall < 0:
        raise Refused(say("Viability is below that already."))
    return fall


def probit(share: float) -> float:
    """The normal deviate of a viability (0.001 to 0.999), without the 5 that older papers add."""
    return NormalDist().inv_cdf(
        within(share, say("The viability at first"), Unit.SHARE, LEAST_SHARE, GREATEST_SHARE)
    )


def _warnings(store: Store) -> tuple[Words, ...]:
    return (
        say("This is an order of magnitude and never a date: seed in real stores often dies sooner."),
        *store.warnings,
    )
