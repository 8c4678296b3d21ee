"""The small map of one submission: site, population, the place given, and the photographs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from hub.science.distance import Position, distance_m
from hub.sites.models import Population, Site
from hub.sites.site_map import MARGIN, ScaleBar, circle, scale_bar
from hub.vetting.collection import Collection
from hub.vetting.models import Photograph
from hub.web.maps import Chart, Point

WIDTH = 420.0


@dataclass(frozen=True)
class Shot:
    """A photograph with its number on the map, and how far from the place given it was taken."""

    number: int
    photograph: Photograph
    at: Point | None = None
    apart_m: float | None = None


@dataclass(frozen=True)
class SubmissionMap:
    """Everything the drawing needs, in its own units."""

    view_box: str
    site: str
    population: Point
    population_reach: str
    place: Point
    place_reach: str
    shots: list[Shot]
    bar: ScaleBar


def submission_map(
    site: Site, population: Population, given: Collection, photographs: Sequence[Photograph]
) -> SubmissionMap:
    """Draw where a collection was made, for those who may know it."""
    area = site.outline or circle(site.latitude, site.longitude, site.radius_m)
    reaches = [
        circle(each.latitude, each.longitude, max(each.uncertainty_m, 1.0)) for each in (population, given)
    ]
    dots = [dot(each.longitude, each.latitude) for each in photographs if each.latitude is not None]
    chart = Chart.of([area, *reaches, *dots], width=WIDTH)
    return SubmissionMap(
        view_box=f"{-MARGIN:g} {-MARGIN:g} {chart.width + 2 * MARGIN:g} {chart.height + 4 * MARGIN:.0f}",
        site=chart.path(area),
        population=chart.point(population.longitude, population.latitude),
        population_reach=chart.path(reaches[0]),
        place=chart.point(given.longitude, given.latitude),
        place_reach=chart.path(reaches[1]),
        shots=[shot(chart, given, number, each) for number, each in enumerate(photographs, 1)],
        bar=scale_bar(chart),
    )


def dot(longitude: float | None, latitude: float | None) -> dict[str, Any]:
    return {"type": "Point", "coordinates": [longitude, latitude]}


def shot(chart: Chart, given: Collection, number: int, photograph: Photograph) -> Shot:
    latitude, longitude = photograph.latitude, photograph.longitude
    if latitude is None or longitude is None:
        return Shot(number, photograph)
    there = Position(latitude=latitude, longitude=longitude)
    apart = distance_m(Position(latitude=given.latitude, longitude=given.longitude), there)
    return Shot(number, photograph, chart.point(longitude, latitude), apart)
