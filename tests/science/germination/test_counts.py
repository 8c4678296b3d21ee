"""What a germination test cannot hold, and what its counts say."""

import pytest

from hub.science.germination.counts import GerminationTest
from hub.science.quantity import OutOfRange
from hub.words import Refused


def test_only_counts_at_which_seed_came_up_are_kept():
    test = GerminationTest((3, 5, 8, 10), (0, 4, 0, 2), sown=10, removed=1)
    assert list(test.intervals) == [(3, 5, 4), (8, 10, 2)]
    assert test.cumulative == (4, 6)
    assert test.result == (6, 9)


@pytest.mark.parametrize(
    ("days", "germinated", "sown", "removed"),
    [
        ((), (), 10, 0),
        ((0,), (1,), 10, 0),
        ((float("nan"),), (1,), 10, 0),
        ((float("inf"),), (1,), 10, 0),
        ((1,), (-1,), 10, 0),
        ((1,), (11,), 10, 0),
        ((1,), (9,), 10, 2),
        ((1,), (0,), 0, 0),
        ((1,), (0,), 10, 10),
        ((1,), (0,), 10, -1),
    ],
)
def test_figures_that_no_test_holds_are_named(days, germinated, sown, removed):
    with pytest.raises(OutOfRange):
        GerminationTest(days, germinated, sown, removed)


@pytest.mark.parametrize(
    ("days", "germinated", "problem"),
    [((1, 2), (1,), "needs its number"), ((2, 2), (1, 1), "must go up"), ((3, 2), (1, 1), "must go up")],
)
def test_days_and_numbers_must_belong_together(days, germinated, problem):
    with pytest.raises(Refused, match=problem):
        GerminationTest(days, germinated, sown=10)
