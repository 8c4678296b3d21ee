"""Seasons: their days follow one another, and only their own bank sets them."""

from __future__ import annotations

from datetime import UTC, date, datetime

import pytest

from hub.taxa import actions, queries
from hub.words import NotFound, Refused

DAYS = {"opens_on": date(2032, 3, 1), "closes_on": date(2032, 11, 30), "lapses_on": date(2032, 9, 1)}


def test_a_curator_opens_a_season_of_the_own_bank(cast):
    with cast.work("cora") as work:
        season = actions.open_season(work, year=2032, **DAYS)
        assert season.bank_id == cast.fell_bank.id
        assert [each.year for each in queries.seasons(work, cast.fell_bank.id)] == [2032, 2031]
        assert queries.season_of(work, cast.fell_bank.id, 2032) is season
        assert queries.season_of(work, cast.far_bank.id, 2032) is None


@pytest.mark.parametrize(
    ("given", "field"),
    [
        ({"year": 2031, "opens_on": date(2031, 3, 1)}, "year"),
        ({"year": 203}, "year"),
        ({"year": 2033}, "opens_on"),
        ({"closes_on": date(2032, 3, 1)}, "closes_on"),
        ({"closes_on": date(2033, 3, 3)}, "closes_on"),
        ({"lapses_on": date(2032, 3, 1)}, "lapses_on"),
        ({"lapses_on": date(2032, 12, 1)}, "lapses_on"),
    ],
)
def test_days_that_make_no_sense_are_refused(cast, given, field):
    wrong = {"year": 2032, **DAYS, **given}
    if wrong["year"] == 2031:
        wrong |= {"closes_on": date(2031, 11, 30), "lapses_on": date(2031, 9, 1)}
    with pytest.raises(Refused) as refused, cast.work("cora") as work:
        actions.open_season(work, **wrong)
    assert refused.value.field == field


def test_a_season_may_close_in_the_next_year(cast):
    with cast.work("cora") as work:
        actions.open_season(work, year=2032, **{**DAYS, "closes_on": date(2033, 2, 28)})


def test_days_can_be_moved_by_the_own_bank_alone(cast):
    days = {"opens_on": date(2031, 4, 1), "closes_on": date(2031, 10, 31), "lapses_on": date(2031, 8, 1)}
    with cast.work("cora") as work:
        assert actions.change_season(work, season_id=cast.season.id, **days).opens_on == date(2031, 4, 1)
    for name in ("dora", "alice", "olga"):
        with pytest.raises(NotFound), cast.work(name) as work:
            actions.change_season(work, season_id=cast.season.id, **days)


def test_who_has_no_bank_opens_nothing(cast):
    with pytest.raises(NotFound), cast.work("alice") as work:
        actions.open_season(work, year=2032, **DAYS)


@pytest.mark.parametrize(
    ("day", "year"), [("2031-01-10", 2031), ("2031-11-30", 2031), ("2031-12-01", 2032), ("2033-01-01", None)]
)
def test_the_current_season_is_the_one_that_has_not_closed(cast, day, year):
    with cast.work("cora") as work:
        actions.open_season(work, year=2032, **DAYS)
    noon = datetime.fromisoformat(f"{day}T12:00").replace(tzinfo=UTC)
    with cast.work("alice", now=noon) as work:
        current = queries.current_season(work, cast.fell_bank.id)
        assert (current.year if current else None) == year
