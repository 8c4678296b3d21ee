"""The flat map: areas true, middles over the date line, places too far apart refused."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.science.geography.ground import area_of
from hub.science.geography.plane import MOST_RECORDS, Plane, degrees_of, middle
from hub.science.quantity import OutOfRange
from hub.words import Refused
from tests.science.geography.mapping import at, degrees_box


@given(st.floats(-80, 78), st.floats(-170, 168), st.floats(0.2, 10), st.floats(0.2, 2))
def test_the_map_keeps_areas(south, west, wide, high):
    box = degrees_box(west, south, west + wide, south + high)
    flat = Plane(at(south, west)).shape(box).area
    assert flat == pytest.approx(area_of(box).value, rel=1e-4)


def test_the_middle_lies_between_over_the_date_line_too():
    between = middle(degrees_of([at(10, 179), at(10, -179)]))
    assert abs(between.longitude) == pytest.approx(180)
    assert between.latitude == pytest.approx(10, abs=0.01)


def test_places_all_round_the_globe_have_no_middle():
    with pytest.raises(Refused, match="too far apart"):
        middle(degrees_of([at(0, 0), at(0, 180)]))


@pytest.mark.parametrize("far", [(0, 100), (0, 180), (-80, 0)])
def test_places_a_quarter_of_the_globe_away_are_no_neighbours(far):
    with pytest.raises(Refused, match="too far apart"):
        Plane(at(20, 0)).points(degrees_of([at(*far)]))


def test_none_and_too_many_records_are_refused():
    with pytest.raises(OutOfRange):
        degrees_of([])
    with pytest.raises(OutOfRange):
        degrees_of([at(0, 0)] * (MOST_RECORDS + 1))


def test_degrees_have_the_longitude_first():
    assert np.array_equal(degrees_of([at(1, 2), at(3, 4)]), [[2, 1], [4, 3]])
