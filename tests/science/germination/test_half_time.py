"""The day by which half is up: between which counts it lies, and how sure its interval is."""

from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.science.germination.counts import GerminationTest
from hub.science.germination.half_time import HalfRule, half_time
from hub.science.quantity import OutOfRange
from tests.science.germination.tests_of_seed import germination_tests

rules = st.sampled_from(HalfRule)


@given(germination_tests(fewest=1), rules)
def test_half_is_up_between_the_first_seed_and_the_last(test, rule):
    figure = half_time(test, rule)
    spans = list(test.intervals)
    assert spans[0][0] <= figure.low <= figure.value <= figure.high <= spans[-1][1]


@given(germination_tests(fewest=1))
def test_the_earlier_rule_is_never_the_later(test):
    assert half_time(test, HalfRule.FAROOQ).value <= half_time(test, HalfRule.COOLBEAR).value


@given(germination_tests(fewest=1), rules)
def test_counting_by_another_clock_changes_nothing_else(test, rule):
    hours = GerminationTest(tuple(day / 24 for day in test.days), test.germinated, test.sown, test.removed)
    assert 24 * half_time(hours, rule).value == pytest.approx(half_time(test, rule).value)


def test_the_interval_holds_the_middle_as_often_as_it_says():
    draws = Random(7)  # noqa: S311 - a simulation that can be run again
    held = 0
    for _ in range(1000):
        seen = [draws.expovariate(1 / 8) for _ in range(40)]
        counts = tuple(sum(day - 1 < time <= day for time in seen) for day in range(1, 121))
        test = GerminationTest(tuple(map(float, range(1, 121))), counts, 40)
        figure = half_time(test)
        held += figure.low <= 5.545 <= figure.high  # 8 ln 2
    assert held >= 950


def test_no_seed_has_no_middle():
    assert half_time(GerminationTest((5,), (0,), 10)) is None


def test_half_at_the_first_count_is_said_to_be_a_guess():
    early = half_time(GerminationTest((5, 9), (30, 2), 40))
    assert "Count earlier" in str(early.warnings[0])
    assert half_time(GerminationTest((2, 5, 9), (0, 30, 2), 40)).warnings == ()


def test_a_standstill_at_half_is_said():
    still = GerminationTest((2, 5, 9), (1, 20, 21), 50)
    assert "Exactly half" in str(half_time(still, HalfRule.FAROOQ).warnings[0])
    assert half_time(still, HalfRule.COOLBEAR).warnings == ()


def test_few_seeds_are_said_to_be_few():
    assert "So few" in str(half_time(GerminationTest((2, 5, 9), (1, 1, 1), 50)).warnings[-1])


def test_a_level_beyond_reason_is_refused():
    with pytest.raises(OutOfRange):
        half_time(GerminationTest((5,), (0,), 10), level=1.0)
