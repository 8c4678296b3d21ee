"""How far and how large on the ground: lengths and areas on the ellipsoid."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from hub.science.distance import Position, distance_m
from hub.science.geography.plane import drawn
from hub.science.geography.sources import GEODESIC
from hub.science.quantity import Estimate, Unit


def distance_between(one: Position, other: Position) -> Estimate:
    """Shortest way over the ground between two positions, in km."""
    return Estimate.exact(distance_m(one, other) / 1000, Unit.KILOMETRES, GEODESIC)


def area_of(outline: Mapping[str, Any]) -> Estimate:
    """Area of a GeoJSON Polygon or MultiPolygon in km², without its holes; ``Refused`` for what is none."""
    from pyproj import Geod

    square_metres, _ = Geod(ellps="WGS84").geometry_area_perimeter(drawn(outline))
    return Estimate.exact(abs(square_metres) / 1e6, Unit.SQUARE_KILOMETRES, GEODESIC)
