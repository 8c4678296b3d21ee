"""How far a species reaches: the extent of occurrence."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from hub.science.distance import Position
from hub.science.geography.plane import degrees_of, middle
from hub.science.geography.sources import EXTENT
from hub.science.quantity import MOST, Estimate, Unit, within
from hub.words import Refused, say

if TYPE_CHECKING:
    from hub.science.geography.plane import Array

TRIANGLE = 3


@dataclass(frozen=True)
class Extent:
    """The extent in km², and the corners of its hull in order (fewer than three enclose nothing)."""

    area: Estimate
    corners: tuple[Position, ...]


def extent_of_occurrence(positions: Sequence[Position], *, occupied_km2: float = 0.0) -> Extent:
    """Area of the smallest outline without dents around 1 to 10,000 records, its edges shortest ways.

    ``occupied_km2`` is the area of occupancy: an extent below it is raised to it, as the guidelines
    ask, with a warning. Raises ``Refused`` when records lie more than a quarter of the globe from
    their middle.
    """
    from pyproj import Geod

    occupied = within(occupied_km2, say("The area of occupancy"), Unit.SQUARE_KILOMETRES, 0, MOST)
    corners = _hull(degrees_of(positions))
    square_metres, _ = Geod(ellps="WGS84").polygon_area_perimeter(corners[:, 0], corners[:, 1])
    enclosed = abs(square_metres) / 1e6
    raised = say("The records enclose less than the area of occupancy, which is given instead.")
    area = Estimate.exact(
        float(max(enclosed, occupied)),
        Unit.SQUARE_KILOMETRES,
        EXTENT,
        *([raised] if enclosed < occupied else []),
    )
    return Extent(area, tuple(Position(latitude=lat, longitude=lon) for lon, lat in corners.tolist()))


def _hull(degrees: Array) -> Array:
    """Corners of the convex hull, found on the gnomonic map, where shortest ways are straight lines."""
    import numpy as np
    import shapely
    from pyproj import Proj

    centre = middle(degrees)
    project = Proj(proj="gnom", lat_0=centre.latitude, lon_0=centre.longitude, ellps="WGS84")
    flat = np.column_stack(project(degrees[:, 0], degrees[:, 1]))
    if not np.isfinite(flat).all():
        raise Refused(say("These places lie too far apart on the globe to be reckoned together."))
    ring = shapely.get_coordinates(shapely.MultiPoint(flat).convex_hull)
    corners = ring[:-1] if len(ring) > TRIANGLE else ring  # a ring ends where it began
    return np.column_stack(project(corners[:, 0], corners[:, 1], inverse=True))
