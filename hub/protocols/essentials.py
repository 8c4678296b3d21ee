"""The essential numbers of a sheet as they are printed large: a label, a figure, its unit, a remark."""

from __future__ import annotations

from dataclasses import dataclass

from hub.protocols.sheet import Headline, Line, Status
from hub.protocols.sheet_words import (
    CONTAINERS,
    DRYING,
    FREEZING,
    HANDLING,
    NOT_KNOWN,
    NOTHING,
    RIPE,
    amount,
    span,
)
from hub.words import Words, say, say_n


@dataclass(frozen=True)
class Essential:
    """One figure to read at arm’s length, and the lines of the headline that it stands for."""

    label: Words
    figure: Words
    unit: Words | None
    remark: Words | None
    lines: tuple[Line, ...]

    @property
    def is_worded(self) -> bool:
        """Whether the figure is a word, which needs more room than a number."""
        return not self.figure.values


def counts(headline: Headline, *, plain: bool = False) -> tuple[Essential, ...]:
    """How to collect, how much of one plant, how much in all, from how many mothers."""
    handling = headline.handling
    how = Essential(
        say("How"), HANDLING[handling.value], None, handling.plain if plain else handling.text, (handling,)
    )
    return how, one_plant(headline), in_all(headline), mothers(headline)


def one_plant(headline: Headline) -> Essential:
    label, lines = say("From one plant at most"), (headline.plant_share,)
    if headline.none_below is None:
        return Essential(label, NOTHING, None, None, lines)
    n = headline.none_below
    if n == 1:
        remark = say("A rescue: every ripe one may be taken.")
        return Essential(label, say("All"), RIPE[headline.counts.value], remark, lines)
    remark = say("Fewer than {n} on the plant: take none.", n=n)
    return Essential(label, say("1 in {n}", n=n), RIPE[headline.counts.value], remark, lines)


def in_all(headline: Headline) -> Essential:
    """What this group may take: in whole fruits where they can be reckoned, for those can be counted."""
    label, lines = say("Your group in all, at most"), (headline.left_fruits, headline.left_seeds)
    fruits, seeds = headline.left_fruits.value, headline.left_seeds.value
    if seeds is None:
        remark = say("Plants, fruits and seeds must be counted first.")
        return Essential(label, NOT_KNOWN, None, remark, lines)
    if seeds == 0:
        return Essential(label, NOTHING, None, None, lines)
    if fruits is None:
        return Essential(label, amount(seeds), unit_of_seeds(seeds), None, lines)
    remark = say_n("or {n} good seed", "or {n} good seeds", n=seeds)
    return Essential(label, amount(fruits), RIPE[headline.counts.value], remark, lines)


def unit_of_seeds(seeds: int) -> Words:
    """The word alone: the number stands beside it, much larger."""
    return say("seed") if seeds == 1 else say("seeds")


def mothers(headline: Headline) -> Essential:
    label, lines = say("Mother plants to aim at"), (headline.mothers_goal, headline.mothers_minimum)
    goal, least = headline.mothers_goal.value, headline.mothers_minimum.value
    if not goal:
        return Essential(label, NOTHING, None, None, lines)
    remark = say_n(
        "Begin as soon as {n} is in fruit.",
        "At least {n} in fruit, or come back another day.",
        n=least,
    )
    unit = say("mother plant") if goal == 1 else say("mother plants")
    return Essential(label, amount(goal), unit, remark, lines)


def ways(headline: Headline, *, plain: bool = False) -> tuple[Essential, ...]:
    """What to carry seed in, how fast, and whether it may be dried and frozen."""
    labelled = (
        (say("Container"), CONTAINERS[headline.container.value], headline.container),
        (say("At the bank within"), span(headline.hours_to_bank.value), headline.hours_to_bank),
        (say("Drying"), DRYING[headline.drying.value], headline.drying),
        (say("Freezing"), FREEZING[headline.freezing.value], headline.freezing),
    )
    return tuple(
        Essential(label, figure, None, line.plain if plain else line.text, (line,))
        for label, figure, line in labelled
    )


def reckoning(headline: Headline) -> tuple[tuple[Words, Words], ...]:
    """The sum behind the limit, step by step, each step with its name."""
    steps = [
        (say("Good seed of the whole population"), headline.crop_seeds),
        (say("The season’s share"), headline.season_share),
        (say("May leave, all groups together"), headline.allowance_seeds),
        (say("The same in whole fruits"), headline.allowance_fruits),
        (say("On one visit, of what is ripe that day"), headline.visit_share),
        (say("The bank hopes for; no reason to pass a limit"), headline.seed_goal),
    ]
    return tuple((label, step(line)) for label, line in steps if line.value is not None)


def step(line: Line) -> Words:
    """A share in per cent; a count with its unit."""
    if line.unit in ("seeds", "fruits"):
        return say("{n} seeds", n=line.value) if line.unit == "seeds" else say("{n} fruits", n=line.value)
    return say("{percent}%", percent=f"{line.value * 100:.10g}")


def is_open(status: Status) -> bool:
    """Whether the sheet says how to collect at all."""
    return status is not Status.STOP
