"""How many times longer seed keeps in one store than in another, where nothing is known of its species.

Only comparisons: without a species’ own constants there are no years to give.
"""

from __future__ import annotations

from hub.science.longevity.constants import CONSTANTS
from hub.science.longevity.sources import HALVING, MOISTURE_FACTOR, TEMPERATURE_FACTOR
from hub.science.longevity.store import Store, checked_temperature
from hub.science.quantity import Estimate, Unit, within
from hub.words import say

C_H, C_Q = 0.0329, 0.000478
"""The temperature pair for seed of any species (from memory)."""

TURN_OVER_C = -C_H / (2 * C_Q)

LEAST_POWER, MIDDLE_POWER, GREATEST_POWER = 4.0, 5.0, 6.0
"""Of moisture, C_W: where most species lie (our own default)."""

RULE_OF_THUMB_PERCENT = (5.0, 14.0)
RULE_OF_THUMB_C = (0.0, 50.0)
"""Where the rule of thumb holds: moisture published, temperature from memory."""


def temperature_factor(from_c: float, to_c: float) -> Estimate:
    """How many times longer seed keeps at one temperature than at another (-34.4 to 90 °C), equally dry."""
    start, end = (checked_temperature(celsius, TURN_OVER_C) for celsius in (from_c, to_c))
    return Estimate.exact(
        10 ** (C_H * (start - end) + C_Q * (start**2 - end**2)), Unit.TIMES, TEMPERATURE_FACTOR
    )


def moisture_factor(before: Store, after: Store) -> Estimate:
    """How many times longer seed keeps at one moisture than at another, equally cold.

    The level is the share of the known species whose power of moisture lies between 4 and 6.
    """
    ratio = before.counted_percent / after.counted_percent
    low, high = sorted((ratio**LEAST_POWER, ratio**GREATEST_POWER))
    known = [constants.c_w for constants in CONSTANTS.values()]
    level = sum(LEAST_POWER <= power <= GREATEST_POWER for power in known) / len(known)
    warnings = tuple(dict.fromkeys((*before.warnings, *after.warnings)))
    return Estimate(ratio**MIDDLE_POWER, Unit.TIMES, low, high, level, MOISTURE_FACTOR, warnings)


def life_factor(before: Store, after: Store) -> Estimate:
    """How many times longer seed keeps in one store than in another: drier, cooler or both."""
    cooler = temperature_factor(before.temperature_c, after.temperature_c).value
    drier = moisture_factor(before, after)
    value, low, high = (cooler * times for times in (drier.value, drier.low, drier.high))
    return Estimate(value, Unit.TIMES, low, high, drier.level, MOISTURE_FACTOR, drier.warnings)


def rule_of_thumb(before: Store, after: Store) -> Estimate:
    """The same by the old rule that 1 % of moisture or 5 °C halves life (5 to 14 %, 0 to 50 °C)."""
    for store in (before, after):
        within(store.moisture_percent, say("The moisture"), Unit.PERCENT, *RULE_OF_THUMB_PERCENT)
        within(store.temperature_c, say("The temperature"), Unit.DEGREES_CELSIUS, *RULE_OF_THUMB_C)
    drier = before.moisture_percent - after.moisture_percent
    cooler = before.temperature_c - after.temperature_c
    return Estimate.exact(2 ** (drier + cooler / 5), Unit.TIMES, HALVING)
