"""Replicates that lie too far apart: the table’s edges, mirrors and grades of evidence."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.science.quantity import Evidence, OutOfRange
from hub.science.tolerances import TABLES, compare_replicates
from hub.words import Refused


@given(st.integers(2, 99))
def test_live_and_dead_seed_have_the_same_tolerance(mean):
    assert TABLES[4].at(mean) == TABLES[4].at(101 - mean)


@pytest.mark.parametrize("replicates", [2, 4])
def test_tolerances_narrow_towards_the_ends(replicates):
    table = TABLES[replicates]
    column = [table.at(mean) for mean in range(table.from_mean[0], table.highest_mean + 1)]
    assert column == sorted(column, reverse=True)
    assert len(table.from_mean) == len(table.points)


def test_replicates_within_the_tolerance_agree_and_one_point_more_does_not():
    assert compare_replicates([90, 94, 82, 90]).agree  # mean 89, range 12, tolerance 12
    assert not compare_replicates([90, 95, 82, 89]).agree  # mean 89, range 13


def test_the_answer_shows_its_figures():
    answer = compare_replicates([92, 88, 95, 85])
    assert (answer.mean_percent, answer.range_points, answer.tolerance_points) == (90, 10, 12)


def test_rows_that_were_not_read_say_so():
    assert compare_replicates([80, 82, 78, 80]).source.evidence is Evidence.PUBLISHED
    assert compare_replicates([60, 62, 58, 60]).source.evidence is Evidence.MEMORY


@pytest.mark.parametrize("percents", [[100, 100, 100, 100], [0, 0, 0, 0], [99, 99], [60, 62], [101, 90]])
def test_means_beyond_the_table_are_refused(percents):
    with pytest.raises(OutOfRange):
        compare_replicates(percents)


@pytest.mark.parametrize("percents", [[], [90], [90, 91, 92]])
def test_other_numbers_of_replicates_are_refused(percents):
    with pytest.raises(Refused, match="twos or fours"):
        compare_replicates(percents)
