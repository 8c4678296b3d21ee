"""The essential numbers of a sheet, each written with the rules that settled it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction
from math import ceil, floor

from hub.protocols.crop import exact
from hub.protocols.facts import Facts
from hub.protocols.hearing import Hearing, Settled, Spoken
from hub.protocols.lines import figure_line, percent, worded
from hub.protocols.sheet import Headline, Line
from hub.protocols.take import Take
from hub.words import Words, say, say_n

_CHOICES = ("handling", "container", "hours_to_bank", "drying", "freezing", "counts", "seed_goal")
_SHARES = {
    "season_share": say("of the season’s ripe seed of the whole population"),
    "visit_share": say("of the seed ripe on the day of a visit"),
    "plant_share": say("of the ripe fruits of any one plant"),
}
_COUNTED: dict[str, Callable[[int], Words]] = {
    "allowance_seeds": lambda n: say_n(
        "{n} seed may leave this population this season, all groups together.",
        "{n} seeds may leave this population this season, all groups together.",
        n=n,
    ),
    "allowance_fruits": lambda n: say_n(
        "{n} whole ripe fruit may leave this population this season, all groups together.",
        "{n} whole ripe fruits may leave this population this season, all groups together.",
        n=n,
    ),
    "left_seeds": lambda n: say_n(
        "Your group may take at most {n} seed.", "Your group may take at most {n} seeds.", n=n
    ),
    "left_fruits": lambda n: say_n(
        "Your group may take at most {n} whole ripe fruit.",
        "Your group may take at most {n} whole ripe fruits.",
        n=n,
    ),
}
_MOTHERS: dict[str, Callable[[int], Words]] = {
    "mothers_goal": lambda n: say_n(
        "Take seed from {n} mother plant.", "Take seed from {n} mother plants.", n=n
    ),
    "mothers_minimum": lambda n: say_n(
        "Begin as soon as {n} plant bears ripe fruit.",
        "Come back another day if fewer than {n} plants bear ripe fruit.",
        n=n,
    ),
}
_CROP_FACTS = (
    "fruiting_plants",
    "fruiting_plants_se",
    "ripe_fruits_per_plant",
    "ripe_fruits_per_plant_se",
    "good_seeds_per_fruit",
    "good_seeds_per_fruit_se",
)
_LEDGER_FACTS = ("taken_seeds", "reserved_seeds", "permit_left_seeds")
_UNCOUNTED = say("Not known yet: plants, fruits and seeds must be counted first.")
_UNCOUNTED_PLAIN = say("Not known yet. Count first.")


def headline(take: Take, hearing: Hearing, facts: Facts) -> Headline:
    """All essential numbers of one case."""
    figures = dict(_choices(hearing, facts))
    figures.update(_shares(take, hearing))
    for group in (_crop, _counts, _mothers):
        figures.update(group(take, hearing, facts))
    return Headline(**figures, fruit_table=take.table(), none_below=take.none_below)


def _choices(hearing: Hearing, facts: Facts) -> Iterator[tuple[str, Line]]:
    """Figures that one rule says in its own words."""
    for name in _CHOICES:
        settled = hearing.settle(name)
        spoken = settled.winner
        text, plain = (worded(each, spoken, facts) for each in (spoken.rule.says, spoken.rule.plain))
        yield name, figure_line(name, settled.value, text, plain, settled)


def _basis(take: Take, hearing: Hearing) -> tuple[Settled, list[Spoken]]:
    """What decides how much may be taken, and what else bears on it: a stop, or else the lowest cap."""
    season = hearing.settle("season_share")
    if hearing.stopped:
        return hearing.settle("verdict"), [*season.spoken, *hearing.factors()]
    return season, hearing.factors()


def _shares(take: Take, hearing: Hearing) -> Iterator[tuple[str, Line]]:
    for name, of in _SHARES.items():
        part: Fraction = getattr(take, name)
        text = plain = say("Take nothing.")
        if part:
            text, plain = _most(part, of, below=take.below and name == "plant_share")
        settled, also = _share_basis(name, take, hearing)
        yield name, figure_line(name, float(part), text, plain, settled, also=also)


def _most(part: Fraction, of: Words, *, below: bool) -> tuple[Words, Words]:
    """A share for adults and for pupils; some publications say less than it, not as much."""
    n = ceil(1 / part)
    if below:
        text = say("Less than {percent}% {of}.", percent=percent(part), of=of)
        return text, say("Less than 1 in every {n} {of}.", n=n, of=of)
    text = say("At most {percent}% {of}.", percent=percent(part), of=of)
    return text, say("At most 1 in every {n} {of}.", n=n, of=of)


def _share_basis(name: str, take: Take, hearing: Hearing) -> tuple[Settled, list[Spoken]]:
    """One plant's share is the lowest of three: its own, the visit's and the season's."""
    season, also = _basis(take, hearing)
    if name == "season_share" or hearing.stopped:
        return season, also
    own, visit = hearing.settle(name), hearing.settle("visit_share")
    if exact(own.value) == getattr(take, name):
        return own, []
    return (visit, []) if take.plant_share == exact(visit.value) else (season, [*also, *own.spoken])


def _crop(take: Take, hearing: Hearing, facts: Facts) -> Iterator[tuple[str, Line]]:
    text, plain, seeds = _UNCOUNTED, _UNCOUNTED_PLAIN, None
    if take.crop is not None:
        seeds = floor(take.crop.value)
        plain = say("The whole population bears about {seeds} good seeds this season.", seeds=seeds)
        text = _crop_text(take, seeds)
    line = figure_line("crop_seeds", seeds, text, plain, hearing.settle("season_share"))
    yield "crop_seeds", replace(line, unit="seeds", inputs={name: facts[name] for name in _CROP_FACTS})


def _crop_text(take: Take, seeds: int) -> Words:
    if take.crop is None or take.crop.low == take.crop.high:
        return say("About {seeds} good seeds this season; nobody has measured how sure that is.", seeds=seeds)
    low, high = floor(take.crop.low), ceil(take.crop.high)
    return say(
        "About {seeds} good seeds this season (90% interval {low} to {high}).",
        seeds=seeds,
        low=low,
        high=high,
    )


def _counts(take: Take, hearing: Hearing, facts: Facts) -> Iterator[tuple[str, Line]]:
    settled, behind = _basis(take, hearing)
    ledger = [each for each in hearing.spoken if each.rule.topic == "allowance"]
    for name, sentence in _COUNTED.items():
        n: int | None = getattr(take, name)
        text, plain = (_UNCOUNTED, _UNCOUNTED_PLAIN) if n is None else (sentence(n), sentence(n))
        line = figure_line(name, n, text, plain, settled, also=[*behind, *ledger])
        decided = _CROP_FACTS if name.startswith("allowance") else (*_CROP_FACTS, *_LEDGER_FACTS)
        inputs = {**(line.inputs or {}), **{fact: facts[fact] for fact in decided}}
        yield name, replace(line, unit=name.rpartition("_")[2], inputs=inputs)


def _mothers(take: Take, hearing: Hearing, facts: Facts) -> Iterator[tuple[str, Line]]:
    for name, sentence in _MOTHERS.items():
        n: int = getattr(take, name)
        text = sentence(n) if n else say("Take nothing.")
        line = figure_line(name, n, text, text, hearing.settle(name), also=_basis(take, hearing)[0].spoken)
        yield name, replace(line, inputs={**(line.inputs or {}), "fruiting_plants": facts["fruiting_plants"]})
