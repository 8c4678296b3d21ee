"""Positions and areas: distances to edges, holes, mended outlines and refused ones."""

import math

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from pyproj import Geod

from hub.science.distance import (
    Position,
    bounding_box,
    contains,
    distance_m,
    distance_outside_m,
    distance_to_edge_m,
)
from hub.science.quantity import OutOfRange
from hub.words import Refused

positions = st.builds(Position, latitude=st.floats(-90, 90), longitude=st.floats(-180, 180))


def square(west=7.0, south=51.0, side=0.01, hole=None):
    def ring(x, y, width):
        return [[x, y], [x + width, y], [x + width, y + width], [x, y + width], [x, y]]

    rings = [ring(west, south, side)]
    if hole is not None:
        rings.append(ring(west + hole, south + hole, side - 2 * hole))
    return {"type": "Polygon", "coordinates": rings}


def at(latitude, longitude):
    return Position(latitude=latitude, longitude=longitude)


@given(positions, positions)
def test_the_way_there_is_as_long_as_the_way_back(one, other):
    there = distance_m(one, other)
    assert 0 <= there <= 20_003_932
    assert there == pytest.approx(distance_m(other, one), abs=1e-4)


@given(st.floats(-65, 65), st.floats(-170, 170), st.floats(-1, 1), st.floats(-1, 1))
def test_the_nearest_edge_is_found_as_nearly_as_promised(latitude, longitude, north, east):
    area = square(longitude, latitude, 0.1)
    position = at(max(min(latitude + north, 65), -65), longitude + east)
    ring = shapely.segmentize(shapely.geometry.shape(area).exterior, 0.0002)
    lon, lat = shapely.get_coordinates(ring).T
    there = [position.longitude] * len(lon), [position.latitude] * len(lat)
    nearest = min(Geod(ellps="WGS84").inv(*there, lon, lat)[2])
    share = 1 / 500 if nearest < 10_000 else 1 / 50
    # The oracle’s own points stand up to 22 m apart, so between them it overshoots by 11 m at most.
    assert nearest - 11.2 <= distance_to_edge_m(area, position) <= nearest * (1 + share) + 0.01


def test_a_degree_of_latitude_is_the_shorter_one_at_the_equator():
    to_the_north = distance_m(at(0.0625, 0.0625), at(0.1, 0.0625))
    assert distance_to_edge_m(square(0.0, 0.0, 0.1), at(0.0625, 0.0625)) == pytest.approx(
        to_the_north, abs=0.1
    )


def test_inside_on_the_edge_and_outside():
    area = square()
    assert contains(area, at(51.005, 7.005))
    assert contains(area, at(51.0, 7.005))
    assert not contains(area, at(51.02, 7.005))
    assert distance_outside_m(area, at(51.005, 7.005)) == 0
    assert distance_outside_m(area, at(51.02, 7.005)) == pytest.approx(
        distance_m(at(51.02, 7.005), at(51.01, 7.005)), abs=0.01
    )


def test_a_hole_is_outside_and_has_an_edge():
    area = square(hole=0.004)
    assert not contains(area, at(51.005, 7.005))
    assert distance_outside_m(area, at(51.005, 7.005)) == pytest.approx(
        distance_m(at(51.005, 7.005), at(51.005, 7.006)), rel=0.01
    )


def test_a_position_mirrored_by_a_slip_of_sign_is_far_away():
    assert distance_outside_m(square(), at(-51.005, 7.005)) > 11_000_000
    assert distance_outside_m(square(), at(-51.005, -172.995)) > 19_000_000


@pytest.mark.parametrize("latitude", [-90, 90])
def test_the_poles_have_distances_too(latitude):
    assert math.isfinite(distance_to_edge_m(square(), at(latitude, 0)))


def test_many_parts_make_one_area_with_one_box():
    area = {
        "type": "MultiPolygon",
        "coordinates": [square()["coordinates"], square(8.0, 52.0)["coordinates"]],
    }
    assert contains(area, at(52.005, 8.005))
    assert bounding_box(area) == (7.0, 51.0, 8.01, 52.01)


def test_edges_that_cross_are_mended():
    bow = {"type": "Polygon", "coordinates": [[[0, 0], [1, 1], [1, 0], [0, 1], [0, 0]]]}
    assert contains(bow, at(0.5, 0.9))
    assert not contains(bow, at(0.9, 0.5))


@pytest.mark.parametrize(
    "area",
    [
        None,
        [],
        {},
        {"type": "Point", "coordinates": [0, 0]},
        {"type": "Polygon"},
        {"type": "Polygon", "coordinates": None},
        {"type": "Polygon", "coordinates": []},
        {"type": "Polygon", "coordinates": "abc"},
        {"type": "Polygon", "coordinates": 5},
        {"type": ["Polygon"], "coordinates": []},
        {"type": "Polygon", "coordinates": [[[0, 0], [1, 1]]]},
        {"type": "Polygon", "coordinates": [[[0, 0], [1, 1], [2, 2], [0, 0]]]},
        {"type": "Polygon", "coordinates": [[["a", 0], [1, 1], [2, 3], [0, 0]]]},
        {"type": "Polygon", "coordinates": [[[10**400, 0], [1, 1], [2, 3], [0, 0]]]},
        {"type": "Polygon", "coordinates": [[[0, 0], [1, math.nan], [2, 3], [0, 0]]]},
        {"type": "MultiPolygon", "coordinates": [[[0, 0], [1, 1], [2, 3], [0, 0]]]},
    ],
)
def test_what_is_no_polygon_is_refused(area):
    with pytest.raises(Refused, match="not a GeoJSON polygon"):
        contains(area, at(0, 0))


@pytest.mark.parametrize("far", [181, -1000, 450_000.5, math.inf])
def test_metres_on_a_map_are_not_degrees(far):
    area = {"type": "Polygon", "coordinates": [[[0, 0], [far, 1], [2, 3], [0, 0]]]}
    with pytest.raises(Refused, match="not in degrees"):
        bounding_box(area)


@pytest.mark.parametrize(("latitude", "longitude"), [(91, 0), (0, 181), (math.nan, 0), (0, -math.inf)])
def test_no_position_lies_off_the_globe(latitude, longitude):
    with pytest.raises(OutOfRange):
        at(latitude, longitude)
