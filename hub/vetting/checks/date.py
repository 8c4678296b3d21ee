"""Whether fruit can have been ripe on the day, and whether the dates follow each other."""

from __future__ import annotations

from calendar import monthrange
from collections.abc import Iterator
from datetime import date

from hub.vetting.checks.answers import Answers, listed, note, query, stop
from hub.vetting.checks.grounds import EARLY, OWN, RIPE, SCOUT, TRADE
from hub.vetting.evidence import Evidence
from hub.words import say, say_n

SEASON_SLIP_DAYS = 14
"""Years differ: so far outside the months when fruit ripens is a question, further a stop."""

FIRST_FRUIT_DAYS = 3
"""Before this many days after the first ripe fruit, and with nothing shed, only the first fruit is ripe."""

LONGEST_SEASON_DAYS = 366


def date_plausible(evidence: Evidence) -> Answers:
    """The day lies in the months in which this species ripens."""
    first, last = evidence.taxon.ripens_from, evidence.taxon.ripens_to
    day = evidence.collection.collected_on
    if first is None or last is None:
        words = say(
            "The hub does not know when {taxon} ripens, so nobody checked the date.",
            taxon=evidence.taxon.name,
        )
        yield note("date_plausible", words, OWN, {"collected_on": day})
        return
    away = days_outside(day, first, last)
    if away:
        words = say_n(
            "{day} lies {n} day outside the months in which {taxon} ripens here.",
            "{day} lies {n} days outside the months in which {taxon} ripens here.",
            n=away,
            day=day,
            taxon=evidence.taxon.name,
        )
        known = {
            "days_outside": away,
            "ripens_from_month": first,
            "ripens_to_month": last,
            "slip_days": SEASON_SLIP_DAYS,
        }
        answer = stop if away > SEASON_SLIP_DAYS else query
        yield answer("date_plausible", words, OWN, known)


def days_outside(day: date, first_month: int, last_month: int) -> int:
    """Days from the nearest day of a span of months, which may run over the turn of the year; 0 inside it."""
    return min(
        (
            max((start - day).days, (day - end).days, 0)
            for start, end in _spans(day.year, first_month, last_month)
        ),
        default=LONGEST_SEASON_DAYS,
    )


def _spans(year: int, first_month: int, last_month: int) -> Iterator[tuple[date, date]]:
    """The season that begins in this year, and its neighbours."""
    for begins in (year - 1, year, year + 1):
        ends = begins + (last_month < first_month)
        if date.min.year <= begins and ends <= date.max.year:
            last_day = monthrange(ends, last_month)[1]
            yield date(begins, first_month, 1), date(ends, last_month, last_day)


def ripe_before_collecting(evidence: Evidence) -> Answers:
    """Seed taken before any ripe fruit was seen is unripe, or a date is wrong."""
    day, seen = evidence.collection.collected_on, evidence.collection.first_ripe_on
    if seen is not None and day < seen:
        words = say(
            "The seed was collected on {day}, before the first ripe fruit was seen on {seen}.",
            day=day,
            seen=seen,
        )
        yield stop("ripe_before_collecting", words, TRADE, {"collected_on": day, "first_ripe_on": seen})


def first_ripe_fruit(evidence: Evidence) -> Answers:
    """The first fruits come from the earliest plants alone, and are often the emptiest."""
    given = evidence.collection
    if given.first_ripe_on is None or given.already_shedding:
        return
    days = (given.collected_on - given.first_ripe_on).days
    if 0 <= days < FIRST_FRUIT_DAYS:
        words = say_n(
            "The seed was collected {n} day after the first ripe fruit, and nothing had been shed yet: only "
            "the earliest plants were ripe.",
            "The seed was collected {n} days after the first ripe fruit, and nothing had been shed yet: only "
            "the earliest plants were ripe.",
            n=days,
        )
        yield query(
            "first_ripe_fruit", words, EARLY, {"days_after_first_ripe": days, "enough_days": FIRST_FRUIT_DAYS}
        )


def shedding(evidence: Evidence) -> Answers:
    """The surest sign of ripeness is that some plants let go."""
    if evidence.collection.already_shedding is False:
        words = say("No plant had begun to shed its seed: was the seed hard and dark?")
        yield query("shedding", words, RIPE)


def visited_before(evidence: Evidence) -> Answers:
    """A visit beforehand confirms name, seed set and date; without one all three rest on the day itself."""
    if evidence.collection.visits_before == 0:
        words = say("Nobody had visited the population this season before the collecting day.")
        yield query("visited_before", words, SCOUT, {"visits_before": 0})


def dates_in_order(evidence: Evidence) -> Answers:
    """Nothing can happen to seed before it was collected, nor can it be handed in before."""
    given = evidence.collection
    later = {
        say("drying began"): given.drying_from,
        say("it was frozen"): given.frozen_on,
        say("it reached the bank"): given.reached_bank_on,
        say("it was handed in"): evidence.handed_in_at.astimezone(evidence.zone).date(),
    }
    wrong = {what: then for what, then in later.items() if then is not None and then < given.collected_on}
    if wrong:
        told = listed(say("{what} on {then}", what=what, then=then) for what, then in wrong.items())
        words = say(
            "The dates do not follow: collected on {day}, but {wrong}.", day=given.collected_on, wrong=told
        )
        known = {"collected_on": given.collected_on, "earlier_days": sorted(wrong.values())}
        yield query("dates_in_order", words, OWN, known)
