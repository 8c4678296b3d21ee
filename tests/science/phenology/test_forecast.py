"""The first ripe fruit: a forecast only where there is a history, and visits that keep their promise."""

import random
from datetime import date, timedelta
from itertools import accumulate

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.science.phenology.forecast import ripe_on
from hub.science.phenology.sources import WEEKLY
from hub.science.phenology.visits import USUAL_DAYS, Season, next_visit
from hub.science.quantity import OutOfRange
from hub.words import Refused

BEGAN = date(2031, 5, 1)
WARMTH = list(accumulate([10.0] * 200))


@given(st.lists(st.floats(300, 900), min_size=2, max_size=20), st.integers(0, 14))
def test_the_day_lies_between_its_ends(seasons, slack):
    found = ripe_on(BEGAN, WARMTH, seasons, began_within_days=slack, level=0.6)
    assert found.earliest <= found.day <= found.latest
    assert (found.day - BEGAN).days == pytest.approx(sum(seasons) / len(seasons) / 10, abs=1)


def test_like_seasons_leave_little_doubt():
    found = ripe_on(BEGAN, WARMTH, [600.0] * 5)
    assert found.earliest == found.day == found.latest == BEGAN + timedelta(days=59)
    assert not found.warnings
    assert "Few seasons" in str(ripe_on(BEGAN, WARMTH, [600.0] * 2).warnings[0])


def test_an_end_of_flowering_between_visits_widens_it():
    narrow, wide = (ripe_on(BEGAN, WARMTH, [600.0] * 5, began_within_days=days) for days in (0, 7))
    assert (narrow.earliest - wide.earliest, wide.latest - narrow.latest) == (timedelta(7), timedelta(7))


def test_without_a_history_there_is_no_forecast():
    with pytest.raises(Refused, match="Keep visiting every week"):
        ripe_on(BEGAN, WARMTH, [600.0])


def test_temperatures_that_end_too_soon_are_told():
    with pytest.raises(Refused, match="Give more days"):
        ripe_on(BEGAN, WARMTH[:30], [600.0, 620.0])


@pytest.mark.parametrize("seasons", [[600.0, -1.0], [600.0, 30_000.0], [600.0, float("nan")]])
def test_nonsense_is_refused(seasons):
    with pytest.raises(OutOfRange):
        ripe_on(BEGAN, WARMTH, seasons)


@pytest.mark.parametrize("stays", [1, 5, 20])
def test_without_a_history_visits_are_weekly_or_sooner(stays):
    found = next_visit([Season(40.0), Season(44.0)], 0, stays)
    assert (found.value, found.source) == (min(USUAL_DAYS, stays), WEEKLY)


def test_once_it_must_be_ripe_visits_are_weekly_again():
    assert next_visit([Season(40.0), Season(42.0), Season(41.0)], 200, 10).source is WEEKLY


@given(st.lists(st.floats(20, 90), min_size=3, max_size=12), st.integers(0, 60), st.integers(1, 20))
def test_fruit_that_is_still_there_is_never_missed(days, last, stays):
    wait = next_visit([Season(each) for each in days], last, stays).value
    assert wait >= min(stays, USUAL_DAYS)
    bolder = next_visit([Season(each) for each in days], last, stays, missed_at_most=0.3).value
    assert bolder >= wait or bolder >= min(stays, USUAL_DAYS)


@pytest.mark.parametrize(("last", "stays", "missed"), [(-1, 7, 0.05), (0, 0, 0.05), (0, 7, 0), (0, 7, 0.6)])
def test_visits_have_limits(last, stays, missed):
    with pytest.raises(OutOfRange):
        next_visit([Season(40.0)] * 3, last, stays, missed_at_most=missed)


# A season played thousands of times: the plants of one place, known from so many seasons before.
@pytest.mark.parametrize(("seasons", "spread", "stays"), [(3, 6, 7), (5, 6, 7), (8, 10, 4), (20, 3, 10)])
def test_no_more_is_missed_than_was_promised(seasons, spread, stays):
    chance = random.Random(7)  # noqa: S311  no secret
    missed, plays, promised = 0, 1500, 0.05
    for _ in range(plays):
        known = [Season(max(chance.gauss(50, spread), 0.0)) for _ in range(seasons)]
        ripens, visited = chance.gauss(50, spread), 0
        while visited < ripens:
            visited += int(next_visit(known, visited, stays, missed_at_most=promised).value)
        missed += visited >= ripens + stays
    assert missed / plays <= promised + 2 * (promised * (1 - promised) / plays) ** 0.5
