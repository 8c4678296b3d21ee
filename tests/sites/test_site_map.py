"""The small map: everything on the sheet, plants where they are, a bar as long as it says."""

from __future__ import annotations

import math
import re

from hypothesis import given
from hypothesis import strategies as some
from shapely.geometry import Point, Polygon

from hub.science.distance import Position, distance_m
from hub.sites.models import Population, Site
from hub.sites.site_map import circle, letter, site_map
from tests.sites.scene import HERE

RADII = some.floats(1, 20_000)
WITHIN = some.lists(some.tuples(some.floats(0, 0.9), some.floats(0, 2 * math.pi)), max_size=30)


def drawn_area(path: str) -> Polygon:
    return Polygon([tuple(map(float, pair.split())) for pair in re.split("[MLZ]", path) if pair])


def plants(radius_m: float, places: list[tuple[float, float]]) -> list[Population]:
    """Populations at shares of the radius and turns around the middle."""
    rings = [(circle(**HERE, radius_m=radius_m * share)["coordinates"][0], turn) for share, turn in places]
    corners = [ring[int(turn / (2 * math.pi) * 48) % 48] for ring, turn in rings]
    return [Population(longitude=longitude, latitude=latitude) for longitude, latitude in corners]


@given(RADII, WITHIN)
def test_plants_inside_the_site_are_drawn_inside_it(
    radius_m: float, places: list[tuple[float, float]]
) -> None:
    drawn = site_map(Site(radius_m=radius_m, outline=None, **HERE), plants(radius_m, places))
    area = drawn_area(drawn.area).buffer(1)
    assert all(area.contains(Point(dot.at)) for dot in drawn.dots)
    assert len({dot.letter for dot in drawn.dots}) == len(places)


@given(RADII)
def test_all_of_it_fits_on_the_sheet(radius_m: float) -> None:
    drawn = site_map(Site(radius_m=radius_m, outline=None, **HERE), [])
    width, height = map(float, drawn.view_box.split()[2:])
    west, north, east, south = drawn_area(drawn.area).bounds
    assert 0 <= west <= east <= width
    assert 0 <= north <= south <= drawn.bar_to[1] <= height
    assert drawn.bar_from[0] < drawn.bar_to[0] <= width


@given(RADII.filter(lambda metres: metres > 50))
def test_the_bar_is_as_long_as_it_says(radius_m: float) -> None:
    drawn = site_map(Site(radius_m=radius_m, outline=None, **HERE), [])
    west, _, east, _ = drawn_area(drawn.area).bounds
    metres = (drawn.bar_to[0] - drawn.bar_from[0]) * 2 * radius_m / (east - west)
    assert abs(metres - drawn.bar_m) <= 0.03 * drawn.bar_m


@given(RADII)
def test_a_circle_has_its_radius(radius_m: float) -> None:
    # Against the WGS 84 geodesic; a sphere of the mean radius is off by at most 0.6 %.
    for longitude, latitude in circle(**HERE, radius_m=radius_m)["coordinates"][0]:
        corner = Position(latitude=latitude, longitude=longitude)
        assert abs(distance_m(Position(**HERE), corner) - radius_m) <= 0.006 * radius_m + 0.01


def test_letters_go_on_after_z() -> None:
    assert [letter(at) for at in (0, 25, 26, 51, 52, 701, 702)] == ["A", "Z", "AA", "AZ", "BA", "ZZ", "AAA"]
