"""The ground within reach of places: discs around them, drawn on a flat map."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from hub.science.distance import Position
from hub.science.geography.plane import Plane, degrees_of, middle
from hub.science.geography.sources import WITHIN_REACH
from hub.science.quantity import Estimate, Unit, within
from hub.words import say

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

    from hub.science.geography.plane import Array

REACH_KM = 50.0
"""How far a gathering speaks for the plants around it (published: Khoury et al. 2019)."""

SIDES = 360
"""A disc drawn with so many corners lacks 0.005 % of its area."""


def area_within_reach(positions: Sequence[Position], *, reach_km: float = REACH_KM) -> Estimate:
    """Area in km² within 0.1 to 1,000 km of any of 1 to 10,000 positions."""
    degrees = degrees_of(positions)
    area = discs(degrees, checked_reach(reach_km), Plane(middle(degrees))).area
    return Estimate.exact(area, Unit.SQUARE_KILOMETRES, WITHIN_REACH)


def checked_reach(reach_km: float) -> float:
    """The reach itself, or ``OutOfRange`` outside 0.1 to 1,000 km."""
    return within(reach_km, say("The reach of a gathering"), Unit.KILOMETRES, 0.1, 1000)


def discs(degrees: Array, reach_km: float, plane: Plane) -> BaseGeometry:
    """The union of the discs around longitudes and latitudes (n × 2, n from 0) on a map.

    Each corner of a disc is found over the ellipsoid, so the map’s distortion of distance does not matter.
    """
    import numpy as np
    import shapely
    from pyproj import Geod

    centres = np.repeat(np.unique(degrees, axis=0), SIDES, axis=0)
    directions = np.tile(np.arange(SIDES) * (360 / SIDES), len(centres) // SIDES)
    away = np.full(len(centres), reach_km * 1000)
    longitudes, latitudes, _ = Geod(ellps="WGS84").fwd(centres[:, 0], centres[:, 1], directions, away)
    corners = plane.points(np.column_stack((longitudes, latitudes)))
    return shapely.union_all(shapely.polygons(corners.reshape(-1, SIDES, 2)))
