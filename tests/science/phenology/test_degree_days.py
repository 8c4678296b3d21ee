"""Degree days: never below nothing, more with warmth, and refused for what no day can be."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.science.phenology.degree_days import (
    Day,
    Thresholds,
    clipped_average,
    degree_days,
    degree_days_of_means,
    gathered,
    simple_average,
    single_sine,
)
from hub.science.quantity import OutOfRange
from hub.words import Refused

CELSIUS = st.floats(-40, 45)
DAYS = st.tuples(CELSIUS, CELSIUS).map(lambda pair: Day(min(pair), max(pair)))
THRESHOLDS = st.tuples(st.floats(0, 12), st.none() | st.floats(13, 40)).map(lambda pair: Thresholds(*pair))


@given(DAYS, THRESHOLDS)
def test_a_day_gives_between_nothing_and_the_whole_span(day, thresholds):
    for method in (single_sine, simple_average, clipped_average):
        assert -1e-9 <= method(day, thresholds) <= max(day.high_c - thresholds.lower_c, 0) + 1e-9


@given(DAYS, THRESHOLDS, st.floats(0, 5))
def test_a_warmer_day_gives_no_less(day, thresholds, more):
    warmer = Day(day.low_c + more, day.high_c + more)
    assert single_sine(warmer, thresholds) >= single_sine(day, thresholds) - 1e-9


@given(st.lists(DAYS, min_size=1, max_size=30), THRESHOLDS)
def test_warmth_is_only_gathered(days, thresholds):
    sums = gathered(days, thresholds)
    assert sums == sorted(sums)
    assert degree_days(days, thresholds).value == sums[-1]
    assert degree_days_of_means(days, thresholds).value >= 0


def test_a_day_of_one_temperature_needs_no_sine():
    assert single_sine(Day(15, 15), Thresholds(10)) == 5
    assert single_sine(Day(10, 10), Thresholds(10)) == 0
    assert single_sine(Day(20, 20), Thresholds(10, 15)) == 5


def test_what_no_day_can_be_is_refused():
    with pytest.raises(Refused, match="above its highest"):
        Day(20, 10)
    for wrong in ((float("nan"), 10), (-90, 10), (10, 80)):
        with pytest.raises(OutOfRange):
            Day(*wrong)
    for wrong in ((-90,), (10, 5), (10, 80)):
        with pytest.raises(OutOfRange):
            Thresholds(*wrong)
    with pytest.raises(OutOfRange):
        gathered([], Thresholds(10))
