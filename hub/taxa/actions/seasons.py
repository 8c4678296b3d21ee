"""Open a bank's season and set its days."""

from __future__ import annotations

from datetime import date
from typing import Any
from uuid import UUID

from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.work import Work
from hub.taxa import queries
from hub.taxa.actions.changes import put
from hub.taxa.calendar import check_days
from hub.taxa.models import Season
from hub.words import NotFound, Refused, say


def open_season(work: Work, *, year: int, opens_on: date, closes_on: date, lapses_on: date) -> Season:
    """Open a season of the asker's own bank, with an empty list. Raises ``Refused`` beside a day."""
    bank_id = work.scope.own_bank_id
    if bank_id is None:
        raise NotFound("bank")
    check_days(year, opens_on, closes_on, lapses_on)
    if queries.season_of(work, bank_id, year):
        raise Refused(say("There is a season {year} already. Change that one.", year=year), field="year")
    days = {"opens_on": opens_on, "closes_on": closes_on, "lapses_on": lapses_on}
    season = Season(bank_id=bank_id, year=year, **days)
    work.db.add(season)
    work.db.flush()
    record(work, Event.SEASON_CHANGED, season, after={"year": year} | iso(days))
    return season


def change_season(work: Work, *, season_id: UUID, opens_on: date, closes_on: date, lapses_on: date) -> Season:
    """Move a season's days; its year stays. Raises ``Refused`` beside a day, NotFound for another bank's."""
    season = queries.get_own_season(work, season_id)
    check_days(season.year, opens_on, closes_on, lapses_on)
    before, after = put(season, {"opens_on": opens_on, "closes_on": closes_on, "lapses_on": lapses_on})
    if after:
        record(work, Event.SEASON_CHANGED, season, before=before, after=after)
    return season


def iso(days: dict[str, date]) -> dict[str, Any]:
    return {name: day.isoformat() for name, day in days.items()}
