"""The extent of occurrence: it grows with the records and never falls below the area of occupancy."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.science.geography.extent import extent_of_occurrence
from hub.science.quantity import OutOfRange, Unit
from hub.words import Refused
from tests.science.geography.mapping import Ground, at

places = st.builds(at, st.floats(47, 48), st.floats(-29, -27))
DEMO = Ground(47.6, -28.2)


@given(st.lists(places, min_size=1, max_size=20), places)
def test_another_record_never_makes_the_extent_smaller(records, another):
    less, more = extent_of_occurrence(records), extent_of_occurrence([*records, another])
    assert less.area.value <= more.area.value + 1e-6
    assert more.area.unit is Unit.SQUARE_KILOMETRES


@given(st.lists(places, min_size=3, max_size=20))
def test_the_hull_of_a_hull_is_itself(records):
    once = extent_of_occurrence(records)
    assert extent_of_occurrence(once.corners).area.value == pytest.approx(once.area.value, abs=1e-6)


@given(st.lists(places, min_size=1, max_size=10), st.randoms())
def test_order_and_repeats_do_not_matter(records, chance):
    shuffled = [*records, records[0]]
    chance.shuffle(shuffled)
    figure = extent_of_occurrence(shuffled).area.value
    assert figure == pytest.approx(extent_of_occurrence(records).area.value, abs=1e-6)


def test_a_triangle_with_a_place_inside_has_three_corners():
    extent = extent_of_occurrence([DEMO.place(*km) for km in ((0, 0), (30, 0), (0, 40), (5, 5))])
    assert extent.area.value == pytest.approx(600, rel=1e-4)
    assert len(extent.corners) == 3


@pytest.mark.parametrize("records", [[(0, 0)], [(0, 0), (0, 0)], [(0, 0), (3, 4)], [(0, 0), (0, 1), (0, 2)]])
def test_what_encloses_nothing_has_the_area_of_occupancy(records):
    along_a_meridian = [at(47 + north, -28 + east) for east, north in records]
    assert extent_of_occurrence(along_a_meridian).area.value == pytest.approx(0, abs=1e-6)
    raised = extent_of_occurrence(along_a_meridian, occupied_km2=12)
    assert raised.area.value == 12
    assert "area of occupancy" in str(raised.area.warnings[0])


def test_a_larger_extent_stays_as_it_is():
    records = [DEMO.place(*km) for km in ((0, 0), (30, 0), (0, 40))]
    extent = extent_of_occurrence(records, occupied_km2=12)
    assert extent == extent_of_occurrence(records)
    assert extent.area.warnings == ()


def test_the_date_line_makes_no_difference():
    beside = [at(0, -1), at(1, 0), at(-1, 1)]
    across = [at(0, 179), at(1, 180), at(-1, -179)]
    figures = [extent_of_occurrence(records).area.value for records in (beside, across)]
    assert figures[0] == pytest.approx(figures[1], rel=1e-9)


@pytest.mark.parametrize("occupied", [-1, math.nan, math.inf])
def test_no_area_of_occupancy_is_refused(occupied):
    with pytest.raises(OutOfRange):
        extent_of_occurrence([at(0, 0)], occupied_km2=occupied)


def test_records_half_round_the_globe_are_refused():
    with pytest.raises(Refused, match="too far apart"):
        extent_of_occurrence([at(0, 0), at(0, 0), at(0, 120)])
    with pytest.raises(OutOfRange):
        extent_of_occurrence([])
