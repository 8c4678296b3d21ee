"""A small map of a region's ecoregions, with those marked that a species grows in."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from uuid import UUID

from hub.db.work import Work
from hub.taxa import queries
from hub.taxa.models import Ecoregion
from hub.web.maps import Chart

WIDTH = 320  # units of the drawing


@dataclass(frozen=True)
class Area:
    """One ecoregion on the map."""

    code: str
    name: str
    path: str
    label: tuple[float, float]
    marked: bool


@dataclass(frozen=True)
class RegionMap:
    """The drawing: its frame and its areas, the marked ones last so that their edges are seen."""

    view_box: str
    width: float
    height: float
    areas: list[Area]


def region_map(work: Work, region_id: UUID | None, marked: Iterable[UUID]) -> RegionMap | None:
    """The map of a region; None where the reader has no region or it has no ecoregions."""
    found = queries.ecoregions(work, region_id, outlines=True) if region_id else []
    if not found:
        return None
    chart, chosen = Chart.of([each.geometry for each in found], WIDTH), set(marked)
    areas = [area(chart, each, each.id in chosen) for each in found]
    return RegionMap(
        chart.view_box, chart.width, round(chart.height), sorted(areas, key=lambda each: each.marked)
    )


def area(chart: Chart, ecoregion: Ecoregion, marked: bool) -> Area:
    outline = ecoregion.geometry
    return Area(ecoregion.code, ecoregion.name, chart.path(outline), chart.centre(outline), marked)
