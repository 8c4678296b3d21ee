"""The moisture that seed takes on in air, and the humidity that seed of some moisture keeps around itself."""

from __future__ import annotations

import math

from hub.science.drying import dry_basis_from_fresh, fresh_basis_from_dry
from hub.science.moisture.sources import ISOTHERM
from hub.science.quantity import Estimate, Unit, within
from hub.words import Words, say

SLOPE = 440.0
COLDEST_C, HOTTEST_C = -30.0, 60.0
"""Where the formula still gives a sensible number (our own default); it was tested in less."""

DRIEST_RH, WETTEST_RH = 1.0, 95.0
"""Towards 100 % the formula gives ever more water (our own default)."""

TESTED_RH = (10.0, 70.0)
TESTED_C = (0.0, 40.0)
TESTED_C_OILY = (15.0, 25.0)
OILY = 0.17
"""Share of oil from which the narrower range of the publication is taken (our own default)."""

MOST_OIL = 0.7


def moisture_in_air(humidity_percent: float, temperature_c: float, oil_share: float) -> Estimate:
    """Moisture, in % of fresh weight, of seed at rest in air of 1 to 95 % humidity, -30 to 60 °C.

    ``oil_share`` is the oil in the dry seed, 0 to 0.7. Exact, as the formula gives no error; warns
    outside the humidities and temperatures of its publication.
    """
    humidity = within(humidity_percent, say("The humidity"), Unit.PERCENT, DRIEST_RH, WETTEST_RH)
    dry_basis = _reach(temperature_c, oil_share) * math.sqrt(-SLOPE * math.log1p(-humidity / 100))
    return Estimate.exact(
        fresh_basis_from_dry(dry_basis),
        Unit.PERCENT,
        ISOTHERM,
        *_warnings(humidity, temperature_c, oil_share),
    )


def humidity_of_seed(moisture_percent: float, temperature_c: float, oil_share: float) -> Estimate:
    """Humidity, in %, of the air that seed of this moisture (% of fresh weight) keeps around itself.

    ``moisture_in_air`` undone; moistures beyond 95 % humidity raise ``OutOfRange``.
    """
    wettest = moisture_in_air(WETTEST_RH, temperature_c, oil_share).value
    moisture = within(moisture_percent, say("The moisture"), Unit.PERCENT, 0, wettest)
    parts = dry_basis_from_fresh(moisture) / _reach(temperature_c, oil_share)
    humidity = -100 * math.expm1(-(parts**2) / SLOPE)
    return Estimate.exact(humidity, Unit.PERCENT, ISOTHERM, *_warnings(humidity, temperature_c, oil_share))


def _reach(temperature_c: float, oil_share: float) -> float:
    """How far moisture goes with humidity: less in warm air, and less in oily seed."""
    temperature = within(temperature_c, say("The temperature"), Unit.DEGREES_CELSIUS, COLDEST_C, HOTTEST_C)
    oil = within(oil_share, say("The oil in the seed"), Unit.SHARE, 0, MOST_OIL)
    return (1 - oil) / (1.1 + temperature / 90)


def _warnings(humidity: float, temperature_c: float, oil_share: float) -> list[Words]:
    low, high = TESTED_C_OILY if oil_share >= OILY else TESTED_C
    warnings = [say("This is for seed alone: fruit walls, chaff and pulp hold water of their own.")]
    if not TESTED_RH[0] <= humidity <= TESTED_RH[1] or not low <= temperature_c <= high:
        warnings.append(
            say(
                "The formula was tested from {dry} to {damp} % humidity and {low} to {high} °C.",
                dry=TESTED_RH[0],
                damp=TESTED_RH[1],
                low=low,
                high=high,
            )
        )
    return warnings
