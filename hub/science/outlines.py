"""Outlines of districts, ecoregions and sites: GeoJSON read with care, mended where the mending is certain.

RFC 7946 asks for WGS 84, closed rings and the right-hand rule; the last is set right here, the others are
asked of whoever drew the outline.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from typing import Any

from hub.words import Refused, say

Geometry = dict[str, Any]
Position = tuple[float, float]

MOST_POSITIONS = 50_000
MOST_DEGREES = 1e9  # far beyond any system of coordinates, near enough to be stored
SHORTEST_RING = 4  # a triangle, with its first position repeated at the end (RFC 7946 §3.1.6)
_WGS84 = ("crs84", "epsg:4326", "epsg::4326")


def read_outline(given: object) -> Geometry:
    """A Polygon or MultiPolygon, right-handed and in two dimensions, from a GeoJSON geometry or feature.

    Positions are longitude and latitude in degrees, WGS 84. Raises ``Refused`` with words for what is wrong.
    """
    geometry = _geometry_of(given)
    parts = geometry.get("coordinates")
    kind = geometry["type"]
    polygons = parts if kind == "MultiPolygon" else [parts]
    read = [_polygon(rings) for rings in _list_of(polygons)]
    if not read:
        raise Refused(say("The outline is empty."))
    _check_shape(read)
    return right_handed(kind, read)


def right_handed(kind: str, polygons: list[list[list[Position]]]) -> Geometry:
    """The same polygons with outer rings counterclockwise and holes clockwise (RFC 7946 §3.1.6)."""
    turned = [
        [_turned(ring, counterclockwise=place == 0) for place, ring in enumerate(rings)] for rings in polygons
    ]
    return {"type": kind, "coordinates": turned if kind == "MultiPolygon" else turned[0]}


def signed_area(ring: Sequence[Position]) -> float:
    """Twice the ring's area in square degrees, positive when it runs counterclockwise."""
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise(ring))


def _turned(ring: list[Position], *, counterclockwise: bool) -> list[list[float]]:
    right_way = (signed_area(ring) > 0) is counterclockwise
    return [list(position) for position in (ring if right_way else reversed(ring))]


def _geometry_of(given: object) -> Mapping[str, Any]:
    """The geometry inside a feature, or the geometry itself."""
    if not isinstance(given, Mapping):
        raise Refused(say("An outline is a GeoJSON geometry, such as a Polygon."))
    _check_reference(given)
    inner = given.get("geometry") if given.get("type") == "Feature" else given
    if not isinstance(inner, Mapping) or inner.get("type") not in ("Polygon", "MultiPolygon"):
        raise Refused(say("An outline must be a Polygon or a MultiPolygon."))
    _check_reference(inner)
    return inner


def _check_reference(given: Mapping[str, Any]) -> None:
    """Older files may name another system of coordinates; only WGS 84 is taken."""
    named = given.get("crs")
    if named is not None and not str(named).lower().rstrip("'}\" ").endswith(_WGS84):
        raise Refused(say("Only WGS 84 coordinates are taken: longitude and latitude in degrees."))


def _polygon(rings: object) -> list[list[Position]]:
    read = [_ring(ring) for ring in _list_of(rings)]
    if not read:
        raise Refused(say("The outline is empty."))
    return read


def _ring(ring: object) -> list[Position]:
    read = [_position(position) for position in _list_of(ring)]
    if len(read) < SHORTEST_RING:
        raise Refused(say("Each ring of an outline needs at least three corners."))
    if read[0] != read[-1]:
        raise Refused(say("Each ring of an outline must end where it began."))
    return read


def _position(position: object) -> Position:
    if not isinstance(position, Sequence) or isinstance(position, str) or len(position) not in (2, 3):
        raise Refused(say("Each corner of an outline is a longitude and a latitude."))
    longitude, latitude = (_degrees(part) for part in position[:2])
    if abs(longitude) > 180 or abs(latitude) > 90:
        raise Refused(
            say(
                "The corner {corner} is no place on earth in degrees. Is the outline in metres, or turned "
                "round? Only WGS 84 is taken, longitude first.",
                corner=f"({longitude:g}, {latitude:g})",
            )
        )
    return longitude, latitude


def _degrees(part: object) -> float:
    number = isinstance(part, int | float) and not isinstance(part, bool)
    if not number or not -MOST_DEGREES <= part <= MOST_DEGREES:  # type: ignore[operator]
        raise Refused(
            say("The corners of an outline must be plain numbers in degrees: only WGS 84 is taken.")
        )
    return float(part)  # type: ignore[arg-type]


def _list_of(parts: object) -> list[Any]:
    if not isinstance(parts, list | tuple):
        raise Refused(say("The coordinates of the outline are not nested as GeoJSON asks."))
    if len(parts) > MOST_POSITIONS:
        raise Refused(say("The outline has more than {n} corners. Please simplify it.", n=MOST_POSITIONS))
    return list(parts)


def _check_shape(polygons: list[list[list[Position]]]) -> None:
    """Rings may not cross themselves or one another, and holes lie inside."""
    from shapely import MultiPolygon, Polygon
    from shapely.validation import explain_validity

    if sum(len(ring) for rings in polygons for ring in rings) > MOST_POSITIONS:
        raise Refused(say("The outline has more than {n} corners. Please simplify it.", n=MOST_POSITIONS))
    whole = MultiPolygon([Polygon(rings[0], rings[1:]) for rings in polygons])
    if not whole.is_valid:
        where = explain_validity(whole).partition("[")[2].rstrip("]")
        raise Refused(say("The outline crosses or touches itself, near {where}.", where=where or "–"))


def positions(geometry: Mapping[str, Any]) -> Iterator[Position]:
    """Every position of a GeoJSON geometry of any kind, as longitude and latitude in degrees."""
    pending = [geometry.get("coordinates", [])]
    while pending:
        part = pending.pop()
        if part and isinstance(part[0], int | float):
            yield float(part[0]), float(part[1])
        else:
            pending.extend(part)
