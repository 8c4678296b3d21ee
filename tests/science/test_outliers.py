"""Figures out of the ordinary: what is flagged, what is not, and when nothing is said."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from hub.science.outliers import ENOUGH_PAST, Scale, compare_with_past
from hub.science.quantity import OutOfRange

PAST = [100, 120, 90, 110, 105, 95, 130, 98]


def test_a_figure_far_from_the_past_is_unusual_and_one_near_it_is_not():
    assert compare_with_past(400, PAST).unusual
    assert compare_with_past(1, PAST).unusual
    assert not compare_with_past(115, PAST).unusual


def test_the_answer_shows_its_figures():
    answer = compare_with_past(115, PAST)
    # Median 102.5; the distances from it are 2.5, 2.5, 4.5, 7.5, 7.5, 12.5, 17.5 and 27.5.
    assert (answer.median, answer.past) == (102.5, 8)
    assert answer.usual_high == pytest.approx(102.5 + 3.5 * 1.482602 * 7.5)
    assert answer.usual_low == pytest.approx(102.5 - 3.5 * 1.482602 * 7.5)


def test_one_wild_figure_in_the_past_does_not_hide_another():
    assert compare_with_past(100_000, [*PAST, 100_000]).unusual


@pytest.mark.parametrize("past", [[], PAST[: ENOUGH_PAST - 1], [7] * 20])
def test_too_few_or_equal_past_figures_say_nothing(past):
    assert compare_with_past(1000, past) is None


def test_when_half_the_past_is_alike_the_rest_still_tells():
    past = [10] * 6 + [12, 8]
    assert compare_with_past(60, past).unusual
    assert not compare_with_past(11, past).unusual


counts = st.lists(st.integers(1, 10**6), min_size=ENOUGH_PAST, max_size=30)


@given(counts, st.integers(1, 10**6), st.sampled_from(Scale))
def test_the_usual_range_holds_its_median_and_is_finite(past, value, scale):
    answer = compare_with_past(value, past, scale=scale)
    assume(answer is not None)
    assert -math.inf < answer.usual_low <= answer.median <= answer.usual_high < math.inf


@given(counts, st.integers(1, 10**6), st.integers(2, 50))
def test_on_the_ratio_scale_the_unit_does_not_matter(past, value, times):
    one = compare_with_past(value, past, scale=Scale.RATIO)
    assume(one is not None)
    other = compare_with_past(value * times, [count * times for count in past], scale=Scale.RATIO)
    assert other.usual_low == pytest.approx(one.usual_low * times, rel=1e-6)
    assert other.usual_high == pytest.approx(one.usual_high * times, rel=1e-6)


@given(counts, st.integers(-500, 500))
def test_on_the_scale_of_differences_the_start_does_not_matter(past, shift):
    one = compare_with_past(50, past)
    assume(one is not None)
    other = compare_with_past(50 + shift, [count + shift for count in past])
    assert other.median == pytest.approx(one.median + shift)
    assert other.usual_high - other.usual_low == pytest.approx(one.usual_high - one.usual_low)


def test_counts_of_many_sizes_are_usual_on_the_ratio_scale():
    past = [10, 30, 100, 300, 1000, 3000, 10_000, 30_000]
    assert not compare_with_past(60_000, past, scale=Scale.RATIO).unusual
    assert compare_with_past(60_000, past).unusual


@pytest.mark.parametrize("bad", [math.nan, math.inf])
def test_what_is_no_figure_is_refused(bad):
    with pytest.raises(OutOfRange):
        compare_with_past(bad, PAST)
    with pytest.raises(OutOfRange):
        compare_with_past(5, [*PAST, bad])
    with pytest.raises(OutOfRange):
        compare_with_past(0, PAST, scale=Scale.RATIO)


def test_a_past_of_wild_ratios_still_has_a_range():
    past = [1e-6] * 4 + [1e9] * 4
    answer = compare_with_past(1, past, scale=Scale.RATIO)
    assert not answer.unusual
    assert answer.usual_high < math.inf
