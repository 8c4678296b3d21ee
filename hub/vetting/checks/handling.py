"""Whether seed was kept apart as the sheet asked, and whether the counts agree with one another."""

from __future__ import annotations

from collections import Counter

from hub.vetting.checks.answers import Answers, query, stop
from hub.vetting.checks.grounds import ARITHMETIC, LINES, OWN, by_sheet
from hub.vetting.collection import Handling
from hub.vetting.evidence import Evidence
from hub.words import say

ROUNDED = 0.02
"""A total that is off by so small a share may have been rounded."""

TIMES_OFF = 1.5
"""A total beyond this many times what the fruits would hold, or below, is looked at."""


def handling_as_asked(evidence: Evidence) -> Answers:
    """Seed once mixed can never be sorted by mother again."""
    asked = evidence.sheet.sheet.headline.handling
    if asked.value == Handling.BY_MOTHER and evidence.collection.handling is Handling.BULK:
        words = say("The sheet asks for a bag for each plant; the seed was put together.")
        source = say("{sheet}. {published}", sheet=by_sheet(evidence, asked), published=LINES)
        yield stop(
            "handling_as_asked", words, source, {"asked": asked.value, "done": evidence.collection.handling}
        )


def flags_unique(evidence: Evidence) -> Answers:
    """Two mothers under one flag cannot be told apart."""
    seen = Counter(tally.flag.casefold() for tally in evidence.collection.tallies)
    twice = [flag for flag, times in seen.items() if times > 1]
    if twice:
        words = say("More than one mother has the flag {flags}.", flags=", ".join(twice))
        yield stop("flags_unique", words, ARITHMETIC, {"flags": twice})


def tally_sum(evidence: Evidence) -> Answers:
    """The seeds of the mothers make the total, with or without the cut ones; blank rows can only be fewer."""
    given = evidence.collection
    counted = [tally.seeds for tally in given.tallies if tally.seeds is not None]
    if given.handling is not Handling.BY_MOTHER or not counted:
        return
    rows, every = sum(counted), len(counted) == len(given.tallies)
    over, short = rows - given.seeds_taken, given.total_seeds - rows if every else 0
    apart = max(over, short, 0)
    if apart:
        words = say(
            "The rows of the mothers add up to {rows} seeds, the total says {total}.",
            rows=rows,
            total=given.total_seeds,
        )
        answer = stop if apart > ROUNDED * given.total_seeds else query
        yield answer("tally_sum", words, ARITHMETIC, {"rows_seeds": rows, "total_seeds": given.total_seeds})


def total_plausible(evidence: Evidence) -> Answers:
    """The fruits taken, times the seeds that a fruit holds, come near the total."""
    given = evidence.collection
    expected = (given.fruits_taken or 0) * (given.seeds_per_fruit or 0)
    if expected and not expected / TIMES_OFF <= given.total_seeds <= expected * TIMES_OFF:
        words = say(
            "{fruits} fruits with {each} seeds each make about {expected} seeds, the total says {total}.",
            fruits=given.fruits_taken,
            each=given.seeds_per_fruit,
            expected=round(expected),
            total=given.total_seeds,
        )
        known = {"fruits_taken": given.fruits_taken, "seeds_per_fruit": given.seeds_per_fruit}
        yield query("total_plausible", words, OWN, {"total_seeds": given.total_seeds, **known})
