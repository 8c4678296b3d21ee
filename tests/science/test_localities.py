"""Generalised places: the properties the published grid must have, whatever the point.

Method: Chapman (2020), Current Best Practices for Generalizing Sensitive Species Occurrence
Data, doi 10.15468/doc-5jp4-5g10; naming the centre of the square is our own choice.
"""

from __future__ import annotations

import math
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pyproj import Geod

from hub.science.localities import STEPS_DEG, GeneralisedPlace, Sensitivity, Withheld, generalise
from hub.science.quantity import OutOfRange

LATITUDES = st.floats(-90, 90)
LONGITUDES = st.floats(-180, 180)
CATEGORIES = st.sampled_from(Sensitivity)
ELLIPSOID = Geod(ellps="WGS84")


def square(
    lat: float | Decimal, lon: float | Decimal, metres: float, category: Sensitivity
) -> GeneralisedPlace:
    place = generalise(lat, lon, metres, category, square_if_extreme=True)
    assert isinstance(place, GeneralisedPlace)
    return place


@given(LATITUDES, LONGITUDES, st.floats(0, 5000), CATEGORIES)
def test_the_true_point_lies_inside_the_stated_radius(
    lat: float, lon: float, metres: float, category: Sensitivity
) -> None:
    place = square(lat, lon, metres, category)
    away = ELLIPSOID.inv(lon, lat, float(place.longitude), float(place.latitude))[2]
    assert away + metres <= place.uncertainty_m + 1e-6


@given(LATITUDES, LONGITUDES, CATEGORIES)
def test_rounding_a_rounded_place_changes_nothing(lat: float, lon: float, category: Sensitivity) -> None:
    once = square(lat, lon, 15, category)
    assert square(once.latitude, once.longitude, 15, category) == once
    assert square(float(once.latitude), float(once.longitude), 15, category) == once


@given(LATITUDES, LONGITUDES, CATEGORIES)
def test_asking_twice_gives_the_same_answer(lat: float, lon: float, category: Sensitivity) -> None:
    assert generalise(lat, lon, 15, category) == generalise(lat, lon, 15, category)


@given(
    st.integers(-89, 89),
    st.integers(-179, 180),
    CATEGORIES,
    st.decimals("-0.49", "0.49"),
    st.decimals("-0.49", "0.49"),
)
def test_all_points_of_one_square_get_one_answer(
    row: int, column: int, category: Sensitivity, up: Decimal, right: Decimal
) -> None:
    step = STEPS_DEG[category]
    lon = (column + right) * step
    moved = square((row + up) * step, min(lon, Decimal(180)), 15, category)
    assert moved == square(row * step, column * step, 15, category)


@given(LATITUDES, LONGITUDES, CATEGORIES)
def test_coordinates_carry_exactly_the_decimals_of_the_step(
    lat: float, lon: float, category: Sensitivity
) -> None:
    place = square(lat, lon, 15, category)
    digits = {Sensitivity.EXTREME: 0, Sensitivity.HIGH: 1, Sensitivity.MEDIUM: 2, Sensitivity.LOW: 3}[
        category
    ]
    for printed in (str(place.latitude), str(place.longitude)):
        assert len(printed.partition(".")[2]) == digits
        assert float(printed) != 0 or not printed.startswith("-")


@pytest.mark.parametrize("longitude", [180.0, -180.0, 179.97, -179.97])
def test_both_sides_of_the_date_line_share_a_square(longitude: float) -> None:
    assert str(square(10, longitude, 15, Sensitivity.HIGH).longitude) == "180.0"


def test_the_extreme_category_is_withheld_in_words_unless_a_square_is_allowed() -> None:
    answer = generalise(47.6, -28.1, 15, Sensitivity.EXTREME)
    assert isinstance(answer, Withheld)
    assert "withheld" in str(answer.words)
    assert str(square(47.6, -28.1, 15, Sensitivity.EXTREME).latitude) == "48"


def test_a_square_says_how_wide_it_is() -> None:
    assert "0.01°" in str(square(47.6, -28.1, 15, Sensitivity.MEDIUM).words)


def test_squares_do_not_nest_so_the_original_must_be_rounded() -> None:
    original = square(47.648, 0, 15, Sensitivity.HIGH)
    by_way_of_finer = square(square(47.648, 0, 15, Sensitivity.MEDIUM).latitude, 0, 15, Sensitivity.HIGH)
    assert (str(original.latitude), str(by_way_of_finer.latitude)) == ("47.6", "47.6")
    tie = square(square(47.6512, 0, 15, Sensitivity.MEDIUM).latitude, 0, 15, Sensitivity.HIGH)
    assert (str(square(47.6512, 0, 15, Sensitivity.HIGH).latitude), str(tie.latitude)) == ("47.7", "47.6")


@pytest.mark.parametrize(
    ("lat", "lon", "metres"),
    [
        (90.1, 0, 15),
        (-91, 0, 15),
        (0, 180.5, 15),
        (math.nan, 0, 15),
        (0, math.nan, 15),
        (0, math.inf, 15),
        (0, 0, -1),
        (0, 0, math.inf),
        (0, 0, math.nan),
    ],
)
def test_what_is_no_point_is_refused(lat: float, lon: float, metres: float) -> None:
    with pytest.raises(OutOfRange, match=r"must be from"):
        generalise(lat, lon, metres, Sensitivity.LOW)
