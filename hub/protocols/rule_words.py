"""A rule in words for people: when it speaks, what it gives, how far a curator may loosen it."""

from __future__ import annotations

import re
from math import ceil
from typing import Any

from hub.protocols.conditions import Condition
from hub.protocols.crop import exact
from hub.protocols.fact_words import NAMES, NO, NOBODY_KNOWS, YES, one
from hub.protocols.figures import FIGURES
from hub.protocols.rulebook_reader import Rule, base_name, names_in
from hub.protocols.sheet_words import CONTAINERS, DRYING, FREEZING, HANDLING, amount, span
from hub.words import Words, say

FIGURE_NAMES = {
    "verdict": say("Verdict"), "route": say("Way of keeping the seed"), "handling": say("Handling"),
    "season_share": say("Share of the season’s ripe seed"),
    "season_factor": say("The share is multiplied by"),
    "groups_sharing": say("Parts that the allowance is divided into"),
    "visit_share": say("Share of the seed ripe on the day"),
    "plant_share": say("Share of one plant’s ripe fruits"),
    "plant_limit": say("That share itself"),
    "seasons_in_ten": say("Seasons in ten years"), "seasons_running": say("Seasons running"),
    "mothers_goal": say("Mother plants to aim at"), "mothers_minimum": say("Fewest mother plants"),
    "seed_goal": say("Seeds the bank hopes for"), "hours_to_bank": say("Hours to the bank"),
    "container": say("Container"), "drying": say("Drying"), "freezing": say("Freezing"),
    "cut_seeds": say("Seeds to cut"), "counts": say("What counts as one fruit"),
}  # fmt: skip
CHOICES = {
    "handling": HANDLING, "container": CONTAINERS, "drying": DRYING, "freezing": FREEZING,
    "plant_limit": {"below": say("is too much already"), "up_to": say("may be taken")},
    "verdict": {
        "stop": say("stop"), "not_yet": say("not yet"), "lifted": say("the rule is set aside"),
    },
}  # fmt: skip
COMPARED = {
    "<": say("fewer than {n}"), "<=": say("at most {n}"), ">": say("more than {n}"), ">=": say("{n} or more"),
}  # fmt: skip
RANGE = re.compile(r"([\d.]+) to ([\d.]+)")


def when(rule: Rule) -> list[tuple[Words, list[Words]]]:
    """Each fact that the rule asks for, and the answers upon which it speaks."""
    return [(NAMES.get(each.fact, Words(each.fact)), answers(each)) for each in rule.when]


def answers(condition: Condition) -> list[Words]:
    return [answer(condition.fact, wanted) for wanted in condition.wanted]


def answer(fact: str, wanted: Any) -> Words:
    """One answer as the rulebook writes it, in words."""
    if isinstance(wanted, bool):
        return YES if wanted else NO
    if wanted == "unknown":
        return NOBODY_KNOWS
    if wanted == "known":
        return say("known")
    sign, _, bound = wanted.partition(" ")
    if sign in COMPARED:
        return Words(COMPARED[sign].text, {"n": float(bound)})
    if span := RANGE.fullmatch(wanted):
        return say("{low} to {high}", low=float(span[1]), high=float(span[2]))
    return listed(fact, wanted)


def listed(fact: str, wanted: str) -> Words:
    """A word of a closed list, or several that are left out."""
    if not wanted.startswith("not "):
        return one(fact, wanted)
    words = [one(fact, each) for each in wanted.removeprefix("not ").split(", ")]
    names = {f"word{at}": each for at, each in enumerate(words)}
    return Words("not " + ", ".join(f"{{{name}}}" for name in names), names)


def sentence(rule: Rule, text: str) -> Words:
    """One of a rule’s sentences with its own figures; a fact that only a case knows stays open."""
    return Words(text, {name: filled(rule, name) for name in names_in(text)})


def filled(rule: Rule, name: str) -> Any:
    base = base_name(name)
    given = rule.gives.get(base)
    if given is None or isinstance(given, str):
        return "…"
    if name.endswith("_percent"):
        return f"{given * 100:.10g}"
    if name.endswith("_span"):
        return span(int(given))
    return ceil(1 / exact(given)) if name.endswith("_one_in") and given else given


def gives(rule: Rule) -> list[tuple[str, Words, Words]]:
    """Each figure of the rule: its key, its name, its value with the unit."""
    return [(name, FIGURE_NAMES[name], value(name, given)) for name, given in rule.gives.items()]


def value(figure: str, given: Any) -> Words:
    """A figure’s value as a reader knows it."""
    words = CHOICES.get(figure, {}).get(given)
    if words is not None:
        return words
    if isinstance(given, str):
        return NAMES.get(given) or Words(given)
    if is_share(figure):
        return say("{percent}%", percent=f"{given * 100:.10g}")
    return amount(given)


def is_share(figure: str) -> bool:
    """Whether people read this figure in per cent."""
    return FIGURES[figure].bounds == (0, 1)


def may_loosen(rule: Rule, figure: str) -> Words | None:
    """As far as a curator may go; nothing where the figure can only be made stricter."""
    return value(figure, rule.loosen_to[figure]) if figure in rule.loosen_to else None


def may_change(rule: Rule, figure: str) -> bool:
    """Whether a curator can change this figure at all."""
    numeric = bool(FIGURES[figure].careful) and FIGURES[figure].allows(rule.gives[figure])
    return numeric or figure in rule.loosen_to
