"""The days of a season and how they must follow one another."""

from __future__ import annotations

from datetime import date, timedelta

from hub.words import Refused, say

LONGEST = timedelta(days=366)
FIRST_YEAR, LAST_YEAR = 1990, 2190


def check_days(year: int, opens_on: date, closes_on: date, lapses_on: date) -> None:
    """Refuse a season whose days make no sense, beside the day that is wrong."""
    if not FIRST_YEAR <= year <= LAST_YEAR:
        raise Refused(say("Please give the year in four digits, such as 2031."), field="year")
    if opens_on.year != year:
        raise Refused(say("The season of {year} must open in that year.", year=year), field="opens_on")
    if closes_on <= opens_on:
        raise Refused(say("A season closes after it has opened."), field="closes_on")
    if closes_on - opens_on > LONGEST:
        raise Refused(say("A season lasts a year at most."), field="closes_on")
    if not opens_on < lapses_on <= closes_on:
        raise Refused(say("Idle adoptions lapse on a day within the season."), field="lapses_on")
