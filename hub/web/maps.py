"""Maps on pages: GeoJSON geometries as paths of an SVG, drawn to scale on a plain sheet of degrees.

Equirectangular with true scale at the middle latitude: east-west distances shrink by its cosine, which is
near enough for a region (at 47.6° north and one degree of height, under 1 % off at the edges).

    chart = Chart.of([district.geometry for district in districts], width=640)
    chart.path(district.geometry)      -> "M12.4 3L…Z", for <path d="…">
    chart.point(longitude, latitude)   -> (123.4, 56.7), for <circle> and <text>
    chart.centre(district.geometry)    -> a point inside, for its label
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from hub.science.outlines import positions

Geometry = dict[str, Any]
Point = tuple[float, float]

MARGIN = 4.0  # units of the drawing, so that strokes at the edge are not cut
DETAIL = 0.6  # units of the drawing; finer bends could not be seen
TALLEST = 1.6  # height over width, beyond which a drawing is scaled down instead


@dataclass(frozen=True)
class Chart:
    """A fixed sheet: its size in units of the drawing, and where on earth it lies (degrees, WGS 84)."""

    width: float
    height: float
    west: float
    north: float
    across: float  # units of the drawing for a degree of longitude
    down: float  # units of the drawing for a degree of latitude

    @classmethod
    def of(cls, geometries: Iterable[Geometry], width: float = 640) -> Chart:
        """The sheet that holds all these geometries. Raises ValueError when there is nothing to hold."""
        places = [place for geometry in geometries for place in positions(geometry)]
        west, east = _ends(place[0] for place in places)
        south, north = _ends(place[1] for place in places)
        shrink = math.cos(math.radians((south + north) / 2)) or 1e-6
        broad, tall = max((east - west) * shrink, 1e-6), max(north - south, 1e-6)
        down = min((width - 2 * MARGIN) / broad, width * TALLEST / tall)
        margin = (width - broad * down) / 2
        across = down * shrink
        return cls(
            width, tall * down + 2 * MARGIN, west - margin / across, north + MARGIN / down, across, down
        )

    @property
    def view_box(self) -> str:
        """What the ``viewBox`` of the drawing says."""
        return f"0 0 {self.width:g} {self.height:.0f}"

    def point(self, longitude: float, latitude: float) -> Point:
        """Where a place on earth lies on the sheet."""
        return (
            round((longitude - self.west) * self.across, 1),
            round((self.north - latitude) * self.down, 1),
        )

    def path(self, geometry: Geometry) -> str:
        """The drawing's path for areas and lines, without bends too fine to see."""
        return "".join(self._stroke(line, closed) for line, closed in _lines(self._simplified(geometry)))

    def centre(self, geometry: Geometry) -> Point:
        """A point well inside an area, or on a line, for a label."""
        from shapely.geometry import shape

        inside = shape(geometry).representative_point()
        return self.point(inside.x, inside.y)

    def _simplified(self, geometry: Geometry) -> Geometry:
        from shapely.geometry import mapping, shape

        plainer: Geometry = mapping(shape(geometry).simplify(DETAIL / self.down))
        return plainer

    def _stroke(self, line: Iterable[tuple[float, ...]], closed: bool) -> str:
        points = [self.point(place[0], place[1]) for place in line]
        corners = points[:-1] if closed else points
        return "M" + "L".join(f"{x:g} {y:g}" for x, y in corners) + ("Z" if closed else "")


def _lines(geometry: Geometry) -> Iterator[tuple[list[tuple[float, ...]], bool]]:
    """Every ring and line of a geometry, and whether it closes."""
    parts = geometry["coordinates"]
    match geometry["type"]:
        case "Polygon":
            yield from ((ring, True) for ring in parts)
        case "MultiPolygon":
            yield from ((ring, True) for rings in parts for ring in rings)
        case "LineString":
            yield parts, False
        case "MultiLineString":
            yield from ((line, False) for line in parts)


def _ends(values: Iterable[float]) -> tuple[float, float]:
    found = list(values)
    return min(found), max(found)
