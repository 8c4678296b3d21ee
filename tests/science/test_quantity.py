"""Figures, their intervals and the refusal of figures that mean nothing."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.science import sources
from hub.science.quantity import Estimate, Evidence, OutOfRange, Source, Unit, normal_deviate, within
from hub.words import Refused, say

TESTED = Source("a test", Evidence.OWN)


def test_a_figure_out_of_range_is_refused_in_words():
    with pytest.raises(OutOfRange) as refused:
        within(1.5, say("The selfing rate"), Unit.SHARE, 0, 1)
    assert str(refused.value.words) == "The selfing rate must be from 0 to 1 as a share of 1."
    assert (refused.value.low, refused.value.high, refused.value.unit) == (0, 1, Unit.SHARE)


def test_out_of_range_is_a_refusal_so_that_pages_answer_it_as_bad_input():
    assert issubclass(OutOfRange, Refused)


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf, 10**400, -(10**400)])
def test_what_is_no_number_of_this_world_never_gets_in(value):
    with pytest.raises(OutOfRange):
        within(value, say("A count"), Unit.SEEDS, 0, 10)


@given(st.floats(0, 10))
def test_a_figure_in_range_comes_back_unchanged(value):
    assert within(value, say("A count"), Unit.SEEDS, 0, 10) == value


@pytest.mark.parametrize(
    ("value", "low", "high"),
    [(1, 2, 3), (4, 2, 3), (math.nan, 0, 1), (1, 0, math.inf), (0, -math.inf, 1), (1, math.nan, 2)],
)
def test_an_estimate_is_finite_and_inside_its_interval(value, low, high):
    with pytest.raises(ValueError, match="not an interval"):
        Estimate(value, Unit.SEEDS, low, high, 0.95, TESTED)


def test_an_exact_figure_has_equal_ends_and_no_error():
    figure = Estimate.exact(7, Unit.SEEDS, TESTED, say("Look again."))
    assert (figure.low, figure.value, figure.high, figure.level) == (7, 7, 7, 1)
    assert figure.standard_error == 0
    assert [str(warning) for warning in figure.warnings] == ["Look again."]


def test_the_standard_error_is_read_back_from_the_interval():
    reach = 2 * normal_deviate(0.9)
    assert Estimate(10, Unit.SEEDS, 10 - reach, 10 + reach, 0.9, TESTED).standard_error == pytest.approx(2)


@pytest.mark.parametrize("level", [0.49, 1.0, math.nan])
def test_a_confidence_level_that_means_nothing_is_refused(level):
    with pytest.raises(OutOfRange):
        normal_deviate(level)


def test_every_unit_has_words_of_its_own():
    assert len({str(unit.value) for unit in Unit}) == len(Unit)


def test_every_source_of_the_bibliography_is_named():
    named = [entry for entry in vars(sources).values() if isinstance(entry, Source)]
    assert len({entry.citation for entry in named}) == len(named) > 10
