"""Figures of a germination test: bounds, what is undefined, and what an interval is worth."""

import math

import pytest
from hypothesis import given

from hub.science.germination.counts import GerminationTest
from hub.science.germination.indices import (
    final_share,
    germination_indices,
    mean_time,
    speed,
    synchrony,
    uncertainty,
    variance_of_time,
)
from hub.science.quantity import Unit
from tests.science.germination.tests_of_seed import germination_tests

NONE_UP = GerminationTest((3, 6), (0, 0), 20)
ONE_UP = GerminationTest((3, 6), (0, 1), 20)


@given(germination_tests(fewest=2))
def test_every_figure_lies_where_it_can(test):
    found = germination_indices(test)
    first, last = next(test.intervals)[1], test.days[-1]
    assert found.final_share.value == test.total / (test.sown - test.removed)
    assert first - 1e-9 <= found.mean_time.value <= last + 1e-9
    assert 0 <= found.variance.value <= (last - first) ** 2
    assert test.total / last <= found.speed.value * (1 + 1e-12)
    assert 0 <= found.uncertainty.value <= math.log2(len(test.cumulative)) + 1e-12
    assert 0 <= found.synchrony.value <= 1


@given(germination_tests(fewest=1))
def test_the_mean_of_middles_is_the_earlier(test):
    assert mean_time(test, midway=True).value < mean_time(test).value


@given(germination_tests(fewest=1))
def test_the_mean_is_never_faster_than_the_speed_allows(test):
    """The harmonic mean of the days, total / speed, is at most their arithmetic mean."""
    assert test.total / speed(test).value <= mean_time(test).value * (1 + 1e-12)


def test_seed_that_comes_up_at_once_is_certain_and_together():
    at_once = GerminationTest((3, 6), (0, 12), 20)
    assert uncertainty(at_once).value == 0
    assert synchrony(at_once).value == 1
    assert variance_of_time(at_once).value == 0
    assert mean_time(at_once).low == mean_time(at_once).high == 6


def test_seed_taken_out_was_never_there():
    assert final_share(GerminationTest((3,), (8,), 12, removed=2)).value == 0.8
    assert final_share(GerminationTest((3,), (8,), 12, removed=2)).warnings
    assert final_share(GerminationTest((3,), (8,), 12)).warnings == ()


def test_what_is_undefined_is_left_out():
    found = germination_indices(NONE_UP)
    assert found.final_share.value == 0
    undefined = {name for name, figure in vars(found).items() if figure is None}
    assert undefined == set(vars(found)) - {"final_share"}
    assert variance_of_time(ONE_UP) is None
    assert synchrony(ONE_UP) is None


def test_one_seed_has_a_day_but_no_spread():
    lone = mean_time(ONE_UP)
    assert (lone.value, lone.low, lone.unit) == (6, 6, Unit.DAYS)
    assert "One seed" in str(lone.warnings[-1])


def test_midway_needs_no_warning():
    assert mean_time(NONE_UP, midway=True) is None
    assert mean_time(GerminationTest((3, 6), (4, 4), 20), midway=True).warnings == ()
    assert mean_time(GerminationTest((3, 6), (4, 4), 20)).warnings != ()


def test_the_interval_of_the_mean_is_students():
    figure = mean_time(GerminationTest((2, 4), (1, 1), 2))
    # Student’s t with 1 d.f. at 95 % is 12.7062 (from memory); the standard error is 1.
    assert (figure.value, figure.low, figure.high) == pytest.approx((3, 0, 15.7062), abs=1e-4)
