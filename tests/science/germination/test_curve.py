"""The fitted curve: what it follows, what it cannot be fitted to, and what its intervals are worth."""

import math
from itertools import pairwise

import numpy as np
import pytest

from hub.science.germination.counts import GerminationTest
from hub.science.germination.curve import fit_curve
from hub.science.quantity import OutOfRange
from hub.words import Refused

PLAIN = GerminationTest((6, 7, 9, 18), (4, 6, 8, 0), 20)


def simulated(rng, seeds, ceiling, half, slope, days):
    """A test of seeds whose days of germination follow the curve."""
    chance = rng.random(seeds)
    day = np.where(
        chance < ceiling, half * (chance / np.maximum(ceiling - chance, 1e-12)) ** (1 / slope), 1e9
    )
    counts, _ = np.histogram(day, bins=(0, *days))
    return GerminationTest(tuple(map(float, days)), tuple(map(int, counts)), seeds)


def test_many_seeds_give_back_the_curve_they_followed():
    found = fit_curve(simulated(np.random.default_rng(3), 200_000, 0.7, 9.0, 4.0, range(1, 41)))
    assert found.share.value == pytest.approx(0.7, rel=0.01)
    assert found.half_time.value == pytest.approx(9.0, rel=0.01)
    assert found.slope.value == pytest.approx(4.0, rel=0.02)


def test_the_intervals_hold_the_truth_about_as_often_as_they_say():
    rng = np.random.default_rng(11)
    truth = {"share": 0.7, "half_time": 9.0, "slope": 4.0}
    fits = [fit_curve(simulated(rng, 80, *truth.values(), range(2, 30, 2)), level=0.9) for _ in range(60)]
    for name, value in truth.items():
        held = sum(getattr(fit, name).low <= value <= getattr(fit, name).high for fit in fits)
        assert held >= 47  # of 60 at 90 %: fewer comes up less than once in a hundred


def test_the_curve_rises_to_its_ceiling_and_is_half_way_at_the_half_time():
    found = fit_curve(PLAIN)
    heights = [found.up_by(day) for day in (0, 1, 5, 7, 9, 18, 3650)]
    assert heights[0] == 0
    assert all(earlier < later for earlier, later in pairwise(heights))
    assert heights[-1] == pytest.approx(found.share.value, abs=1e-6)
    assert found.up_by(found.half_time.value) == pytest.approx(found.share.value / 2)


def test_another_clock_moves_the_half_time_only():
    hours = GerminationTest(tuple(24 * day for day in PLAIN.days), PLAIN.germinated, 20)
    there, here = fit_curve(hours), fit_curve(PLAIN)
    assert there.half_time.value == pytest.approx(24 * here.half_time.value, rel=1e-4)
    assert there.slope.value == pytest.approx(here.slope.value, rel=1e-4)
    assert there.share.value == pytest.approx(here.share.value, rel=1e-4)


def test_a_surer_interval_is_wider():
    sure, bold = fit_curve(PLAIN, level=0.99), fit_curve(PLAIN, level=0.8)
    for name in ("share", "half_time", "slope"):
        wide, narrow = getattr(sure, name), getattr(bold, name)
        assert wide.low < narrow.low < narrow.value < narrow.high < wide.high


def test_seed_still_coming_up_leaves_the_ceiling_open():
    rising = fit_curve(GerminationTest((1, 2, 3, 4), (1, 2, 4, 8), 100))
    assert rising.share.high == 1
    assert "Only a longer test" in str(rising.share.warnings[0])


def test_seed_all_up_has_nothing_left_to_wait_for():
    done = fit_curve(GerminationTest((3, 4, 5, 7), (1, 12, 3, 3), 19))
    assert (done.share.value, done.share.high, done.share.warnings) == (1, 1, ())


@pytest.mark.parametrize("germinated", [(0, 0, 0), (20, 0, 0), (5, 15, 0)])
def test_seed_at_one_or_two_counts_makes_no_curve(germinated):
    with pytest.raises(Refused, match="3 counts or more"):
        fit_curve(GerminationTest((3, 6, 9), germinated, 40))


@pytest.mark.parametrize(
    ("days", "germinated"),
    [((1, 2, 100), (30, 1, 1)), ((1.126, 769, 1102, 1484), (30, 2, 0, 1)), ((1, 200, 3000), (1, 1, 1))],
)
def test_counts_too_far_apart_settle_nothing(days, germinated):
    with pytest.raises(Refused, match="do not settle"):
        fit_curve(GerminationTest(days, germinated, 40))


@pytest.mark.parametrize("day", [-1, 3651, math.nan, math.inf])
def test_days_beyond_any_test_are_refused(day):
    with pytest.raises(OutOfRange):
        fit_curve(PLAIN).up_by(day)


def test_a_level_beyond_reason_is_refused():
    with pytest.raises(OutOfRange):
        fit_curve(PLAIN, level=0.1)
