"""A flat map around the middle of what is asked about, in km, on which areas are true."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from hub.science.distance import Position
from hub.science.outlines import positions as corners_of
from hub.science.outlines import read_outline
from hub.science.quantity import Unit, within
from hub.words import Refused, say

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray
    from shapely.geometry.base import BaseGeometry

    Array = NDArray[np.float64]

MOST_RECORDS = 10_000
"""More records than a species of one region has (our own default)."""

FARTHEST_KM = 9_000.0
"""A quarter of the way round the globe, as this map draws it: what lies beyond is no neighbour."""

FINEST_DEGREES = 0.1
"""Edges are straight in degrees (RFC 7946), so they are bent on the map at steps of this length."""

_NOWHERE = 0.01
"""Positions whose directions from the earth’s centre cancel so far have no middle."""


class Plane:
    """The Lambert azimuthal equal-area map centred on a position: x to the east, y to the north, in km."""

    def __init__(self, centre: Position) -> None:
        """Draw the map around ``centre``."""
        from pyproj import Proj

        self._project = Proj(
            proj="laea", lat_0=centre.latitude, lon_0=centre.longitude, ellps="WGS84", units="km"
        )

    def points(self, degrees: Array) -> Array:
        """Longitudes and latitudes (n × 2) as x and y; ``Refused`` when any is too far from the centre."""
        import numpy as np

        flat = self.points_anywhere(degrees)
        if not (np.hypot(flat[:, 0], flat[:, 1]) <= FARTHEST_KM).all():
            raise Refused(say("These places lie too far apart on the globe to be reckoned together."))
        return flat

    def points_anywhere(self, degrees: Array) -> Array:
        """The same however far, to tell what is outside; areas beyond a quarter of the globe are untrue."""
        import numpy as np

        return np.column_stack(self._project(degrees[:, 0], degrees[:, 1]))

    def shape(self, outline: Mapping[str, Any]) -> BaseGeometry:
        """A GeoJSON Polygon or MultiPolygon on this map; raises ``Refused`` for what is none."""
        import shapely

        return shapely.transform(drawn(outline), self.points)


def drawn(outline: Mapping[str, Any]) -> BaseGeometry:
    """A GeoJSON Polygon or MultiPolygon in degrees, with corners so close that edges keep their course."""
    import shapely
    from shapely.geometry import shape

    return shapely.segmentize(shape(read_outline(outline)), FINEST_DEGREES)


def degrees_of(positions: Sequence[Position]) -> Array:
    """Longitudes and latitudes of one or more positions, n × 2; ``OutOfRange`` beyond 10,000."""
    import numpy as np

    within(len(positions), say("The number of records"), Unit.RECORDS, 1, MOST_RECORDS)
    return np.array([(position.longitude, position.latitude) for position in positions], dtype=float)


def corner_degrees(outline: Mapping[str, Any]) -> Array:
    """Longitudes and latitudes of every corner of an outline, n × 2."""
    import numpy as np

    return np.array(list(corners_of(read_outline(outline))), dtype=float)


def middle(degrees: Array) -> Position:
    """The place towards which longitudes and latitudes (n × 2) lie on average, over the date line too.

    Raises ``Refused`` when they lie all round the globe and so have no middle.
    """
    import numpy as np

    longitude, latitude = np.radians(degrees).T
    east = (np.cos(latitude) * np.cos(longitude)).mean()
    north = (np.cos(latitude) * np.sin(longitude)).mean()
    up = np.sin(latitude).mean()
    if np.linalg.norm((east, north, up)) < _NOWHERE:
        raise Refused(say("These places lie too far apart on the globe to be reckoned together."))
    return Position(
        latitude=float(np.degrees(np.arctan2(up, np.hypot(east, north)))),
        longitude=float(np.degrees(np.arctan2(north, east))),
    )
