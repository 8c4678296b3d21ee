"""Times between two looks, and what lives on."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hub.science.phenology.looks import Seen, came_by, middle_day
from hub.science.phenology.survival import Watched, living_after
from hub.science.quantity import OutOfRange
from hub.words import Refused

SEEN = st.tuples(st.integers(0, 20), st.none() | st.integers(1, 15)).map(
    lambda pair: Seen(float(pair[0]), None if pair[1] is None else float(pair[0] + pair[1]))
)


@settings(max_examples=60)
@given(st.lists(SEEN, min_size=1, max_size=25))
def test_shares_rise_to_at_most_all(seen):
    found = came_by(seen)
    assert list(found.shares) == sorted(found.shares)
    assert all(0 <= share <= 1 for share in found.shares)
    if all(one.with_it is not None for one in seen):
        assert found.shares[-1] == pytest.approx(1)


@given(st.lists(st.integers(1, 30), min_size=1, max_size=40))
def test_daily_looks_are_a_plain_count(days):
    found = came_by([Seen(day - 1.0, float(day)) for day in days])
    for day in range(31):
        assert found.by(day) == pytest.approx(sum(each <= day for each in days) / len(days), abs=1e-7)


def test_nothing_had_come_before_the_first_look():
    assert came_by([Seen(3.0, 5.0)]).by(2) == 0


def test_the_middle_day_lies_between_the_looks_around_it():
    found = middle_day([Seen(0.0, 7.0), Seen(7.0, 14.0), Seen(7.0, 14.0), Seen(14.0, 21.0)])
    assert (found.low, found.value, found.high) == (7, 10.5, 14)
    first = middle_day([Seen(2.0, 6.0)])
    assert (first.low, first.high) == (2, 6)


def test_what_was_hardly_ever_seen_has_no_middle_day():
    with pytest.raises(Refused, match="Fewer than half"):
        middle_day([Seen(10.0, None), Seen(10.0, None), Seen(3.0, 5.0)])


def test_looks_in_the_wrong_order_are_refused():
    with pytest.raises(Refused, match="after the last look without"):
        came_by([Seen(5.0, 5.0)])
    for wrong in ([], [Seen(-1.0, None)], [Seen(0.0, 5000.0)], [Seen(math.nan, 3.0)]):
        with pytest.raises(OutOfRange):
            came_by(wrong)


WATCHED = st.tuples(st.integers(0, 20), st.booleans()).map(lambda pair: Watched(float(pair[0]), pair[1]))


@given(st.lists(WATCHED, min_size=1, max_size=40), st.sampled_from([0.8, 0.95, 0.99]))
def test_the_living_only_grow_fewer(watched, level):
    living = [step.living for step in living_after(watched, level=level)]
    values = [each.value for each in living]
    assert values == sorted(values, reverse=True)
    assert all(0 <= each.low <= each.value <= each.high <= 1 for each in living)


@given(st.lists(st.integers(1, 20), min_size=1, max_size=40))
def test_where_none_is_lost_it_is_a_plain_count(days):
    for step in living_after([Watched(float(day), True) for day in days]):
        assert step.living.value == pytest.approx(sum(day > step.day for day in days) / len(days))


def test_where_none_ended_there_is_no_step():
    assert living_after([Watched(5.0, False)]) == []


def test_the_watched_are_some_and_their_days_are_days():
    for wrong in ([], [Watched(-1.0, True)], [Watched(math.inf, True)]):
        with pytest.raises(OutOfRange):
            living_after(wrong)
