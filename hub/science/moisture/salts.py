"""Whether a hygrometer tells the truth, by the air over wet salt in a closed jar."""

from __future__ import annotations

import math
from enum import StrEnum
from typing import NamedTuple

from hub.science.moisture.sources import SALTS
from hub.science.quantity import Estimate, Unit, within
from hub.words import say

COLDEST_C, HOTTEST_C = 10.0, 40.0
ZERO_C_IN_KELVIN = 273.15
AGREES_WITHIN = 3.0
"""Points of humidity to which cheap hygrometers claim to be right (common practice, no source)."""


class Salt(StrEnum):
    """A salt that keeps the air above its wet slurry at one humidity."""

    LITHIUM_CHLORIDE = "lithium_chloride"
    MAGNESIUM_CHLORIDE = "magnesium_chloride"
    SODIUM_CHLORIDE = "sodium_chloride"
    POTASSIUM_SULFATE = "potassium_sulfate"


CONSTANTS: dict[Salt, tuple[float, float]] = {
    Salt.LITHIUM_CHLORIDE: (14.53, -75.0),
    Salt.MAGNESIUM_CHLORIDE: (29.26, 34.0),
    Salt.SODIUM_CHLORIDE: (69.20, 25.0),
    Salt.POTASSIUM_SULFATE: (86.75, 34.0),
}


class Check(NamedTuple):
    """What the air is, how far the reading lies from it, and whether that is near enough."""

    humidity: Estimate
    off_by: Estimate
    agrees: bool


def humidity_over(salt: Salt, temperature_c: float) -> Estimate:
    """Humidity, in %, over a wet salt at 10 to 40 °C: A exp(B / kelvins)."""
    celsius = within(temperature_c, say("The temperature"), Unit.DEGREES_CELSIUS, COLDEST_C, HOTTEST_C)
    a, b = CONSTANTS[salt]
    return Estimate.exact(a * math.exp(b / (celsius + ZERO_C_IN_KELVIN)), Unit.PERCENT, SALTS)


def check_hygrometer(salt: Salt, temperature_c: float, reading_percent: float) -> Check:
    """Compare a reading (0 to 100 %) with what the salt makes; a reading too high is off by more than 0."""
    reading = within(reading_percent, say("The reading"), Unit.PERCENT, 0, 100)
    truth = humidity_over(salt, temperature_c)
    off = reading - truth.value
    return Check(truth, Estimate.exact(off, Unit.PERCENT, SALTS), abs(off) <= AGREES_WITHIN)
