"""What changed from one sheet to the next, in plain words."""

from __future__ import annotations

from collections.abc import Iterator

from hub.protocols.sheet import Headline, Line, Sheet
from hub.protocols.sheet_words import CONTAINERS, DRYING, FREEZING, HANDLING, NOT_KNOWN, STATUS, amount
from hub.words import Words, say

CHOICES = {"handling": HANDLING, "container": CONTAINERS, "drying": DRYING, "freezing": FREEZING}
FIGURES = {
    "handling": say("How to collect"),
    "plant_share": say("Share of one plant’s ripe fruits"),
    "season_share": say("Share of the season’s seed"),
    "visit_share": say("Share of one visit"),
    "crop_seeds": say("Good seeds of the whole population"),
    "allowance_seeds": say("Seeds that may leave, all groups together"),
    "left_seeds": say("Seeds your group may take"),
    "left_fruits": say("Whole fruits your group may take"),
    "mothers_goal": say("Mother plants to aim at"),
    "mothers_minimum": say("Fewest mother plants"),
    "seed_goal": say("Seeds the bank hopes for"),
    "container": say("Container"),
    "hours_to_bank": say("Hours to the bank"),
    "drying": say("Drying"),
    "freezing": say("Freezing"),
}


def differences(old: Sheet, new: Sheet) -> tuple[Words, ...]:
    """One sentence for each thing that a reader of the old sheet must unlearn; none for equal sheets."""
    return (*of_status(old, new), *of_figures(old.headline, new.headline), *of_lines(old, new))


def of_status(old: Sheet, new: Sheet) -> Iterator[Words]:
    if old.status is not new.status:
        yield say("It said “{old}”; now it says “{new}”.", old=STATUS[old.status], new=STATUS[new.status])


def of_figures(old: Headline, new: Headline) -> Iterator[Words]:
    for name, label in FIGURES.items():
        before, now = getattr(old, name), getattr(new, name)
        if before.value != now.value:
            yield say(
                "{label}: {old} before, {new} now.",
                label=label,
                old=figure(name, before),
                new=figure(name, now),
            )


def figure(name: str, line: Line) -> Words:
    """A figure alone, as a reader knows it from the sheet."""
    if line.value is None:
        return NOT_KNOWN
    if name in CHOICES:
        return CHOICES[name][line.value]
    if name.endswith("_share"):
        return say("{percent}%", percent=f"{line.value * 100:.10g}")
    return amount(line.value)


def of_lines(old: Sheet, new: Sheet) -> Iterator[Words]:
    """Steps and cautions that came, and those that went; figures were told before."""
    before, now = steps(old), steps(new)
    yield from (say("New: {step}", step=text) for text in now if text not in before)
    yield from (say("No longer: {step}", step=text) for text in before if text not in now)


def steps(sheet: Sheet) -> list[Words]:
    told = {line.rules[0] for _, line in sheet.headline.lines()}
    lines = [*sheet.reasons, *(line for lines in sheet.sections.values() for line in lines)]
    return [line.text for line in lines if line.rules[0] not in told]
