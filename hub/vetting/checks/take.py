"""Whether no more was taken than the sheet and the population’s year allow."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import floor
from typing import NamedTuple

from hub.protocols.crop import exact
from hub.protocols.sheet import Headline
from hub.vetting.checks.answers import Answers, limit_of, query, stop
from hub.vetting.checks.grounds import ARITHMETIC, SAMPLING, by_sheet
from hub.vetting.collection import Bulk, Collection, Handling, Tally
from hub.vetting.evidence import Evidence
from hub.words import Words, say, say_n


class OverLimit(NamedTuple):
    """A mother that gave more than its share."""

    flag: str
    taken_fruits: int
    ripe_fruits: int
    allowed_fruits: int


def share_of_population(evidence: Evidence) -> Answers:
    """The allowance is the population’s, whoever takes from it; with none on record the sheet’s own holds."""
    line, account = evidence.sheet.sheet.headline.allowance_seeds, evidence.account
    allowed = account.allowance_seeds if account else limit_of(line.value)
    taken = account.taken_seeds if account else evidence.collection.seeds_taken
    source = by_sheet(evidence, line)
    if allowed is None:
        words = say("Nobody has counted how much seed the population bears, so its allowance is not known.")
        yield query("share_of_population", words, source, {"taken_seeds": taken})
    elif taken > allowed:
        words = say(
            "With this collection of {seeds} seeds more has been taken from the population this year than "
            "its allowance of {allowed} seeds.",
            seeds=evidence.collection.seeds_taken,
            allowed=allowed,
        )
        yield stop("share_of_population", words, source, {"taken_seeds": taken, "allowance_seeds": allowed})


def left_on_sheet(evidence: Evidence) -> Answers:
    """A group counts fruits in the field: too many fruits is a stop, fuller fruits than expected a query."""
    given, headline = evidence.collection, evidence.sheet.sheet.headline
    seeds_left, fruits_left = limit_of(headline.left_seeds.value), limit_of(headline.left_fruits.value)
    if fruits_left is not None and given.fruits_taken is not None and given.fruits_taken > fruits_left:
        words = say_n(
            "{n} fruit was taken; the sheet left {allowed} to the group.",
            "{n} fruits were taken; the sheet left {allowed} to the group.",
            n=given.fruits_taken,
            allowed=fruits_left,
        )
        known = {"taken_fruits": given.fruits_taken, "left_fruits": fruits_left}
        yield stop("left_on_sheet", words, by_sheet(evidence, headline.left_fruits), known)
    elif seeds_left is not None and given.seeds_taken > seeds_left:
        words = say_n(
            "{n} seed was taken; the sheet left {allowed} to the group.",
            "{n} seeds were taken; the sheet left {allowed} to the group.",
            n=given.seeds_taken,
            allowed=seeds_left,
        )
        answer = stop if given.fruits_taken is None or fruits_left is None else query
        known = {"taken_seeds": given.seeds_taken, "left_seeds": seeds_left}
        yield answer("left_on_sheet", words, by_sheet(evidence, headline.left_seeds), known)


def taken_lowered(evidence: Evidence) -> Answers:
    """Seed once said to be taken stays taken until a curator agrees that the figure was mistaken."""
    now, entered = evidence.collection.seeds_taken, evidence.entered_seeds
    if entered > now:
        words = say(
            "An earlier revision said that {before} seeds were taken, this one says {now}. The difference "
            "still counts against the population; approving this gives it back. Approve only if the earlier "
            "figure was a mistake.",
            before=entered,
            now=now,
        )
        yield query("taken_lowered", words, ARITHMETIC, {"earlier_seeds": entered, "taken_seeds": now})


def share_of_day(evidence: Evidence) -> Answers:
    """Of all fruit that was ripe that day, most stays for the plants’ own offspring."""
    given, line = evidence.collection, evidence.sheet.sheet.headline.visit_share
    standing, share = _ripe_that_day(given), limit_of(line.value)
    if standing is None or share is None or given.fruits_taken is None:
        return
    allowed = floor(exact(share) * standing)
    if given.fruits_taken > allowed:
        words = say_n(
            "{n} fruit was taken of about {ripe} that were ripe that day; the sheet allows {allowed}.",
            "{n} fruits were taken of about {ripe} that were ripe that day; the sheet allows {allowed}.",
            n=given.fruits_taken,
            ripe=round(standing),
            allowed=allowed,
        )
        known = {
            "taken_fruits": given.fruits_taken,
            "ripe_fruits": round(standing),
            "allowed_fruits": allowed,
        }
        yield stop("share_of_day", words, by_sheet(evidence, line), known)


def _ripe_that_day(given: Collection) -> Fraction | None:
    """Ripe fruits on all fruiting plants, from the mean of those that were counted."""
    counted = [tally.ripe_fruits for tally in given.tallies if tally.ripe_fruits is not None]
    if given.plants_fruiting is None:
        return None
    plants = max(given.plants_fruiting, given.mothers)
    if given.handling is Handling.BY_MOTHER and counted:
        return Fraction(sum(counted), len(counted)) * plants
    if given.bulk and given.bulk.ripe_fruits_per_plant is not None:
        return exact(given.bulk.ripe_fruits_per_plant) * plants
    return None


def ripe_counted(evidence: Evidence) -> Answers:
    """Without the ripe fruits that stood there, nobody can see which share was taken."""
    given = evidence.collection
    blank = sum(1 for tally in given.tallies if tally.fruits_taken and tally.ripe_fruits is None)
    if given.handling is Handling.BULK:
        blank = int(given.bulk is None or given.bulk.ripe_fruits_per_plant is None)
    if blank:
        words = say("How many ripe fruits stood there was left blank, so nobody could check the share taken.")
        yield query("ripe_counted", words, SAMPLING, {"rows_without_ripe_fruits": blank})


def share_of_plant(evidence: Evidence) -> Answers:
    """No single plant loses more than its share; of seed in bulk only the mean plant is known."""
    given, line = evidence.collection, evidence.sheet.sheet.headline.plant_share
    share, source = limit_of(line.value), by_sheet(evidence, line)
    if share is None:
        return
    if given.handling is Handling.BULK:
        yield from _mean_plant(given.bulk, exact(share), source)
        return
    over = sorted(
        _over(given.tallies, evidence.sheet.sheet.headline),
        key=lambda each: each.allowed_fruits - each.taken_fruits,
    )
    if over:
        known = {"mothers_over": len(over), "over": [each._asdict() for each in over]}
        about = over[0].flag if len(over) == 1 else ""
        yield stop("share_of_plant", _plants_over(over), source, known, about=about)


def _over(tallies: tuple[Tally, ...], headline: Headline) -> Iterator[OverLimit]:
    for tally in tallies:
        if tally.ripe_fruits is not None:
            allowed = headline.most_from(tally.ripe_fruits)
            if allowed is not None and tally.fruits_taken > allowed:
                yield OverLimit(tally.flag, tally.fruits_taken, tally.ripe_fruits, allowed)


def _plants_over(over: list[OverLimit]) -> Words:
    worst = over[0]
    words = say(
        "{taken} of {ripe} ripe fruits were taken from plant {flag}; the sheet allows {allowed}.",
        taken=worst.taken_fruits,
        ripe=worst.ripe_fruits,
        flag=worst.flag,
        allowed=worst.allowed_fruits,
    )
    if len(over) == 1:
        return words
    more = say_n("{n} more plant gave too much.", "{n} more plants gave too much.", n=len(over) - 1)
    return say("{worst} {more}", worst=words, more=more)


def _mean_plant(bulk: Bulk | None, share: Fraction, source: Words) -> Answers:
    if bulk is None or bulk.fruits_taken is None or bulk.ripe_fruits_per_plant is None:
        return
    allowed = share * exact(bulk.ripe_fruits_per_plant)
    if bulk.fruits_taken > allowed * bulk.plants:
        taken = bulk.fruits_taken / max(bulk.plants, 1)
        words = say(
            "{taken} of {ripe} ripe fruits were taken from the mean plant; the sheet allows {allowed}.",
            taken=round(taken, 2),
            ripe=bulk.ripe_fruits_per_plant,
            allowed=round(float(allowed), 2),
        )
        known = {
            "taken_fruits_per_plant": round(taken, 2),
            "allowed_fruits_per_plant": round(float(allowed), 2),
        }
        yield stop(
            "share_of_plant", words, source, {"ripe_fruits_per_plant": bulk.ripe_fruits_per_plant, **known}
        )
