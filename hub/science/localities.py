"""Public localities: a place rounded to a square, or withheld, as its sensitivity asks.

The method is the decimal geographic grid of Chapman (2020), Current Best Practices for
Generalizing Sensitive Species Occurrence Data, doi 10.15468/doc-5jp4-5g10. The centre of a
square is named, not its corner, which halves the radius that has to be stated. Nothing is
ever drawn at random: asking twice gives the same square, so answers cannot be averaged.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import ROUND_HALF_EVEN, Decimal
from enum import IntEnum
from functools import cache
from typing import TYPE_CHECKING

from hub.science.quantity import Unit, within
from hub.words import Words, say

if TYPE_CHECKING:
    from pyproj import Geod


class Sensitivity(IntEnum):
    """The four published categories, from the most to the least sensitive."""

    EXTREME = 1
    HIGH = 2
    MEDIUM = 3
    LOW = 4


STEPS_DEG = {
    Sensitivity.EXTREME: Decimal("1"),
    Sensitivity.HIGH: Decimal("0.1"),
    Sensitivity.MEDIUM: Decimal("0.01"),
    Sensitivity.LOW: Decimal("0.001"),
}

_POLE = Decimal(90)
_DATE_LINE = Decimal(180)
_HALFWAY_ROUND_M = 20_000_000


@dataclass(frozen=True)
class GeneralisedPlace:
    """The centre of a square ``step_deg`` degrees wide, in WGS84.

    The decimals carry exactly as many digits as the step, so ``str()`` prints them rightly.
    ``uncertainty_m`` is a radius in whole metres that is sure to hold the true point.
    """

    latitude: Decimal
    longitude: Decimal
    uncertainty_m: int
    step_deg: Decimal

    @property
    def words(self) -> Words:
        """What to print beside the coordinates, so nobody takes them for the exact place."""
        return say("The place is rounded to the middle of a square {step}° wide.", step=self.step_deg)


@dataclass(frozen=True)
class Withheld:
    """No coordinates leave the hub; the words stand where they would have been."""

    words: Words


def generalise(
    latitude: float | Decimal,
    longitude: float | Decimal,
    uncertainty_m: float,
    category: Sensitivity,
    *,
    square_if_extreme: bool = False,
) -> GeneralisedPlace | Withheld:
    """Round a WGS84 point in degrees to the square its category allows, or withhold it.

    The extreme category publishes nothing, unless ``square_if_extreme`` allows the
    one-degree square that the guidance also permits. Always start from the original point:
    squares of different steps do not nest. Raises ``OutOfRange`` for a point off the globe
    and for an uncertainty (metres) that no place on it can have.
    """
    within(float(latitude), say("The latitude"), Unit.DEGREES, -90, 90)
    within(float(longitude), say("The longitude"), Unit.DEGREES, -180, 180)
    within(uncertainty_m, say("The uncertainty of the place"), Unit.METRES, 0, _HALFWAY_ROUND_M)
    if category is Sensitivity.EXTREME and not square_if_extreme:
        return Withheld(say("The place is withheld to protect the plants."))
    step = STEPS_DEG[category]
    lat = _nearest(latitude, step)
    lon = _nearest(longitude, step)
    lon = abs(lon) if abs(lon) == _DATE_LINE else lon
    return GeneralisedPlace(lat, lon, math.ceil(_reach_m(lat, lon, step) + uncertainty_m), step)


def _nearest(degrees: float | Decimal, step: Decimal) -> Decimal:
    """The nearest multiple of the step, halves to even, never written as minus zero."""
    exact = degrees if isinstance(degrees, Decimal) else Decimal(repr(float(degrees)))
    rounded = exact.quantize(step, rounding=ROUND_HALF_EVEN)
    return abs(rounded) if rounded.is_zero() else rounded


def _reach_m(lat: Decimal, lon: Decimal, step: Decimal) -> float:
    """Geodesic metres from the centre of a square to its farthest corner."""
    half = step / 2
    corners = [(max(lat - half, -_POLE), lon + half), (min(lat + half, _POLE), lon + half)]
    return max(_distance_m(lat, lon, *corner) for corner in corners)


def _distance_m(lat1: Decimal, lon1: Decimal, lat2: Decimal, lon2: Decimal) -> float:
    return float(_wgs84().inv(float(lon1), float(lat1), float(lon2), float(lat2))[2])


@cache
def _wgs84() -> Geod:
    """The ellipsoid, loaded at first use because its library is slow to import."""
    from pyproj import Geod

    return Geod(ellps="WGS84")
