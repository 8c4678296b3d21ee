"""The region as a drawing: its districts with rivers and lakes, shaded by what is banked.

Shades are patterns as well as colours, and every district carries its numbers: nothing hangs on colour.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any
from uuid import UUID

from hub.adoptions.rules import Stage
from hub.groups.models import District
from hub.progress.rules import shade
from hub.web.maps import Chart, Geometry, Point

WIDTH = 360.0  # units of the drawing: on a phone its letters are hardly scaled down
LONGEST_LINE = 11  # letters of a district's name on one line


@dataclass(frozen=True)
class Shape:
    """One district. ``banked`` of its ``adoptions`` have ended in the bank."""

    name: str
    path: str
    label: Point
    lines: list[str]
    banked: int
    adoptions: int
    shade: int
    chosen: bool


@dataclass(frozen=True)
class RegionMap:
    """The drawing's frame, its districts, the chosen one last, and its waters."""

    view_box: str
    width: float
    height: int
    shapes: list[Shape]
    lakes: list[str]
    rivers: list[str]


def region_map(
    districts: Iterable[District],
    waters: Geometry,
    counts: Mapping[UUID, Mapping[Stage, int]],
    chosen: UUID | None = None,
) -> RegionMap | None:
    """Draw a region; None where it has no districts. ``waters`` is GeoJSON of any kind, or empty."""
    found = list(districts)
    if not found:
        return None
    chart = Chart.of([each.geometry for each in found], WIDTH)
    shapes = [shape(chart, each, counts.get(each.id, {}), each.id == chosen) for each in found]
    drawn = [(part["type"], chart.path(part)) for part in geometries(waters)]
    return RegionMap(
        chart.view_box,
        chart.width,
        round(chart.height),
        sorted(shapes, key=lambda each: each.chosen),
        lakes=[path for kind, path in drawn if kind.endswith("Polygon")],
        rivers=[path for kind, path in drawn if kind.endswith("LineString")],
    )


def shape(chart: Chart, district: District, counts: Mapping[Stage, int], chosen: bool) -> Shape:
    banked, adoptions = counts.get(Stage.BANKED, 0), sum(counts.values())
    return Shape(
        district.name,
        chart.path(district.geometry),
        chart.centre(district.geometry),
        broken(district.name),
        banked,
        adoptions,
        shade(banked, adoptions),
        chosen,
    )


def broken(name: str) -> list[str]:
    """A name on as many lines as it needs, broken between words."""
    lines: list[str] = []
    for word in name.split():
        if lines and len(lines[-1]) + len(word) < LONGEST_LINE:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return lines


def geometries(found: Mapping[str, Any]) -> Iterator[Geometry]:
    """Every line and area in a piece of GeoJSON (RFC 7946); what is neither is left out."""
    match found.get("type"):
        case "FeatureCollection":
            for feature in found["features"]:
                yield from geometries(feature)
        case "Feature":
            yield from geometries(found.get("geometry") or {})
        case "GeometryCollection":
            for part in found["geometries"]:
                yield from geometries(part)
        case "Polygon" | "MultiPolygon" | "LineString" | "MultiLineString":
            yield dict(found)
