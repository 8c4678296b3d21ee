"""Maps on pages: everything lies on the sheet, at its true proportions."""

from __future__ import annotations

import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pyproj import Geod

from hub.web.maps import Chart

NUMBER = re.compile(r"-?[\d.]+(?:e-?\d+)?")


def box(west, south, east, north):
    ring = [[west, south], [east, south], [east, north], [west, north], [west, south]]
    return {"type": "Polygon", "coordinates": [ring]}


def numbers(path):
    found = [float(each) for each in NUMBER.findall(path)]
    return list(zip(found[::2], found[1::2], strict=True))


@given(
    st.floats(-179, 170), st.floats(-80, 75), st.floats(0.001, 9), st.floats(0.001, 5), st.integers(100, 1200)
)
def test_everything_lies_on_the_sheet(west, south, across, up, width):
    area = box(west, south, west + across, south + up)
    chart = Chart.of([area], width)
    corners = numbers(chart.path(area))
    assert corners
    assert all(-0.1 <= x <= chart.width + 0.1 and -0.1 <= y <= chart.height + 0.1 for x, y in corners)


def test_north_is_up_and_east_is_right():
    chart = Chart.of([box(-28.7, 47.6, -28.2, 47.9)])
    west_south, east_north = chart.point(-28.7, 47.6), chart.point(-28.2, 47.9)
    assert east_north[0] > west_south[0]
    assert east_north[1] < west_south[1]


def test_proportions_agree_with_distances_on_the_ellipsoid():
    # Outside check: pyproj's geodesics on WGS 84.
    chart = Chart.of([box(-28.7, 47.4, -27.9, 47.9)])
    earth = Geod(ellps="WGS84")
    across = earth.line_length([-28.7, -27.9], [47.65, 47.65])
    down = earth.line_length([-28.3, -28.3], [47.4, 47.9])
    drawn_across = chart.point(-27.9, 47.65)[0] - chart.point(-28.7, 47.65)[0]
    drawn_down = chart.point(-28.3, 47.4)[1] - chart.point(-28.3, 47.9)[1]
    assert drawn_across / drawn_down == pytest.approx(across / down, rel=0.01)


def test_fine_bends_are_left_out():
    wobbly = [[step / 1000, 0.00001 * math.sin(step)] for step in range(1000)]
    ring = [*wobbly, [1, 1], [0, 1], wobbly[0]]
    area = {"type": "Polygon", "coordinates": [ring]}
    assert len(numbers(Chart.of([area], 300).path(area))) < 10


def test_holes_lines_and_parts_are_drawn():
    outer = box(0, 0, 2, 2)["coordinates"][0]
    hole = box(0.5, 0.5, 1, 1)["coordinates"][0][::-1]
    chart = Chart.of([box(0, 0, 2, 2)])
    assert chart.path({"type": "Polygon", "coordinates": [outer, hole]}).count("M") == 2
    assert chart.path({"type": "MultiPolygon", "coordinates": [[outer], [hole]]}).count("Z") == 2
    line = chart.path({"type": "LineString", "coordinates": [[0, 0], [1, 2], [2, 0]]})
    assert line.startswith("M")
    assert "Z" not in line
    two = {"type": "MultiLineString", "coordinates": [[[0, 0], [1, 1]], [[1, 0], [2, 1]]]}
    assert chart.path(two).count("M") == 2


def test_a_label_stands_inside_its_area():
    area = box(0, 0, 2, 1)
    chart = Chart.of([area, box(5, 5, 6, 6)])
    x, y = chart.centre(area)
    (left, bottom), (right, top) = chart.point(0, 0), chart.point(2, 1)
    assert left < x < right
    assert top < y < bottom


def test_nothing_cannot_be_drawn():
    with pytest.raises(ValueError):
        Chart.of([])
