"""Ground within reach of places: no more than the discs' sum, no less than one disc."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.science.geography.reach import area_within_reach
from hub.science.quantity import OutOfRange, Unit
from tests.science.geography.mapping import at

places = st.lists(st.builds(at, st.floats(-85, -84), st.floats(-180, 180)), min_size=1, max_size=8)


@given(places, st.floats(1, 200))
def test_reach_lies_between_one_disc_and_all_of_them(positions, reach):
    one = area_within_reach(positions[:1], reach_km=reach).value
    figure = area_within_reach(positions, reach_km=reach)
    assert one * (1 - 1e-3) <= figure.value <= len(positions) * one * (1 + 1e-3)
    assert figure.unit is Unit.SQUARE_KILOMETRES


@pytest.mark.parametrize("pole", [at(90, 0), at(-90, 0), at(0, 180)])
def test_poles_and_the_date_line_make_no_difference(pole):
    figure = area_within_reach([pole], reach_km=50).value
    assert figure == pytest.approx(math.pi * 2500, rel=2e-4)


@pytest.mark.parametrize("reach", [0, 1001, math.nan])
def test_no_reach_is_refused(reach):
    with pytest.raises(OutOfRange):
        area_within_reach([at(0, 0)], reach_km=reach)
