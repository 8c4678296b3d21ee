"""The small map of one site: its outline or circle, its plants as lettered dots, a bar for scale."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from string import ascii_uppercase
from typing import Any
from uuid import UUID

from hub.sites.models import Population, Site
from hub.web.maps import Chart, Point

METRES_A_DEGREE = 111_195  # of latitude, on a sphere of the earth's mean radius: near enough to draw
CORNERS = 48
WIDTH = 420.0  # units of the drawing
BARS_M = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000)
MARGIN = 12.0


@dataclass(frozen=True)
class Dot:
    """One population on the map."""

    letter: str
    at: Point
    population: Population


@dataclass(frozen=True)
class ScaleBar:
    """A line that is so many metres long on the ground."""

    start: Point
    end: Point
    metres: int


@dataclass(frozen=True)
class SiteMap:
    """Everything the drawing needs, in its own units."""

    view_box: str
    area: str
    dots: list[Dot]
    bar_from: Point
    bar_to: Point
    bar_m: int

    @property
    def letters(self) -> dict[UUID, str]:
        """Each population's letter, for the table beside the map."""
        return {dot.population.id: dot.letter for dot in self.dots}


def circle(latitude: float, longitude: float, radius_m: float) -> dict[str, Any]:
    """A circle on the ground as a GeoJSON polygon, radius in metres."""
    up = radius_m / METRES_A_DEGREE
    aside = up / max(math.cos(math.radians(latitude)), 0.001)
    turns = [2 * math.pi * step / CORNERS for step in range(CORNERS)]
    ring = [[longitude + aside * math.cos(turn), latitude + up * math.sin(turn)] for turn in turns]
    return {"type": "Polygon", "coordinates": [[*ring, ring[0]]]}


def site_map(site: Site, populations: Sequence[Population]) -> SiteMap:
    """Draw a site for those who are let in on it. After Z the letters go on with AA."""
    area = site.outline or circle(site.latitude, site.longitude, site.radius_m)
    plants = [{"type": "Point", "coordinates": [each.longitude, each.latitude]} for each in populations]
    chart = Chart.of([area, *plants], width=WIDTH)
    bar = scale_bar(chart)
    return SiteMap(
        view_box=f"0 0 {chart.width:g} {chart.height + 3 * MARGIN:.0f}",
        area=chart.path(area),
        dots=[
            Dot(letter(at), chart.point(each.longitude, each.latitude), each)
            for at, each in enumerate(populations)
        ],
        bar_from=bar.start,
        bar_to=bar.end,
        bar_m=bar.metres,
    )


def scale_bar(chart: Chart) -> ScaleBar:
    """A round length of at most a third of the drawing, below it."""
    metres = METRES_A_DEGREE / chart.down  # to one unit of the drawing
    length = max((length for length in BARS_M if length / metres <= chart.width / 3), default=BARS_M[0])
    bottom = chart.height + 2 * MARGIN
    return ScaleBar((MARGIN, bottom), (round(MARGIN + length / metres, 1), bottom), length)


def letter(at: int) -> str:
    return ascii_uppercase[at] if at < 26 else letter(at // 26 - 1) + ascii_uppercase[at % 26]
