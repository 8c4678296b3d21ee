"""Areas of occupancy: never more cells than records, least over the origins, scales there and back."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.science.geography.occupancy import (
    area_of_occupancy,
    cells_touched,
    rescaled_occupancy,
    scale_exponent,
)
from hub.science.quantity import OutOfRange, Unit
from hub.words import Refused
from tests.science.geography.mapping import at

CENTRE = at(47.6, -28.2)
kilometres = st.floats(-50, 50)
points = st.lists(st.tuples(kilometres, kilometres), min_size=1, max_size=12).map(np.array)
places = st.builds(at, st.floats(47, 48), st.floats(-29, -27))


@given(points)
def test_the_least_is_never_more_than_the_fixed_nor_that_than_the_records(km):
    fixed, fewest = cells_touched(km, 2.0)
    assert 1 <= fewest <= fixed <= len(km)


@given(points, st.floats(0, 1.99), st.floats(0, 1.99))
def test_no_other_origin_has_fewer_cells(km, east, north):
    shifted = {tuple(cell) for cell in np.floor((km - (east, north)) / 2)}
    assert cells_touched(km, 2.0)[1] <= len(shifted)


def test_many_records_are_tried_on_a_selection_of_origins():
    km = np.random.default_rng(7).uniform(0, 100, (500, 2))
    fixed, fewest = cells_touched(km, 2.0)
    assert fixed == len({tuple(cell) for cell in np.floor(km / 2)})
    assert fewest < fixed


@given(st.lists(places, min_size=1, max_size=10))
def test_the_area_is_four_square_km_a_cell(records):
    figure = area_of_occupancy(records, grid_centre=CENTRE)
    assert figure.fixed.value == 4 * figure.cells
    assert figure.least.value <= figure.fixed.value
    assert figure.fixed.unit is figure.least.unit is Unit.SQUARE_KILOMETRES
    assert figure.fixed.warnings == ()


def test_other_cells_are_told():
    figure = area_of_occupancy([CENTRE], grid_centre=CENTRE, cell_km=10)
    assert figure.fixed.value == 100
    assert "2 km" in str(figure.fixed.warnings[0])


@pytest.mark.parametrize("cell", [0, -2, 101, math.nan, math.inf])
def test_cells_of_no_size_are_refused(cell):
    with pytest.raises(OutOfRange):
        area_of_occupancy([CENTRE], grid_centre=CENTRE, cell_km=cell)


@given(st.floats(1, 1e6), st.floats(0.5, 9), st.floats(0, 1))
def test_scales_there_and_back(coarse, cell, exponent):
    fine = rescaled_occupancy(coarse, from_cell_km=10, to_cell_km=cell, exponent=exponent).value
    assert fine <= coarse
    found = scale_exponent(coarse, fine, coarse_cell_km=10, fine_cell_km=cell)
    assert found.value == pytest.approx(exponent, abs=1e-6)


@given(st.floats(0, 1), st.floats(0, 1))
def test_a_steeper_exponent_leaves_less(one, other):
    less, more = (
        rescaled_occupancy(100, from_cell_km=10, exponent=c).value for c in sorted((one, other), reverse=True)
    )
    assert less <= more


def test_contradictions_between_scales_are_refused():
    with pytest.raises(Refused, match="smaller"):
        rescaled_occupancy(100, from_cell_km=2, exponent=0.5)
    with pytest.raises(Refused, match="holds at least one"):
        scale_exponent(100, 101, coarse_cell_km=10, fine_cell_km=2)
    with pytest.raises(Refused, match="holds at least one"):
        scale_exponent(100, 3, coarse_cell_km=10, fine_cell_km=2)


def test_areas_and_exponents_beyond_their_limits_are_refused():
    with pytest.raises(OutOfRange):
        rescaled_occupancy(100, from_cell_km=10, exponent=1.1)
    with pytest.raises(OutOfRange):
        rescaled_occupancy(-1, from_cell_km=10, exponent=1)
    with pytest.raises(OutOfRange):
        scale_exponent(0, 0, coarse_cell_km=10, fine_cell_km=2)
