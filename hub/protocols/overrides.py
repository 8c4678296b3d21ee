"""A bank's own departures from the rules: tightening freely, loosening only as far as a rule lets it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date
from typing import Any

from hub.protocols.figures import FIGURES
from hub.protocols.rulebook_reader import Rule, Rulebook
from hub.protocols.sheet import OverrideLine
from hub.words import Words, say


@dataclass(frozen=True)
class Override:
    """One figure of one rule, changed by a named curator until a day, for a reason.

    ``value`` of a stop's ``verdict`` is ``lifted``, and of ``handling`` ``bulk``: such a rule is
    set aside. ``evidence`` names the document that a loosening rests on.
    """

    rule: str
    figure: str
    value: Any
    by: str
    on: date
    reason: str
    expires: date
    evidence: str = ""


def loosens(rule: Rule, override: Override) -> bool:
    """Whether the override is less careful than the rule."""
    figure = FIGURES[override.figure]
    return figure.rank(override.value) > figure.rank(rule.gives[override.figure])


def refusal(override: Override, rulebook: Rulebook, on: date) -> Words | None:
    """Why the override cannot stand on this day, in words for the curator, or ``None``."""
    rule = rulebook.rule(override.rule)
    if rule is None or override.figure not in rule.gives:
        return say("There is no rule “{rule}” with this figure.", rule=override.rule)
    if not _can_change(rule, override):
        return say("This figure cannot be changed to “{value}”.", value=str(override.value))
    if not (override.by.strip() and override.reason.strip()):
        return say("A change to a rule needs a name and a reason.")
    if not override.on <= on <= override.expires:
        return say(
            "This change holds from {since} to {until}.", since=str(override.on), until=str(override.expires)
        )
    return _too_loose(rule, override) if loosens(rule, override) else None


def _can_change(rule: Rule, override: Override) -> bool:
    """A number may be any number; a choice or a stop can only be set aside, where its rule allows that."""
    figure = FIGURES[override.figure]
    if not figure.careful:
        return bool(rule.loosen_to.get(override.figure) == override.value)
    return figure.allows(override.value) and figure.allows(rule.gives[override.figure])


def _too_loose(rule: Rule, override: Override) -> Words | None:
    bound = rule.loosen_to.get(override.figure)
    if bound is None:
        return say("Nobody may loosen this rule: {title}.", title=Words(rule.title))
    figure = FIGURES[override.figure]
    if figure.rank(override.value) > figure.rank(bound):
        return say("A curator may loosen this rule to {bound} at most.", bound=str(bound))
    if not override.evidence.strip():
        return say("Loosening a rule needs evidence on file.")
    return None


def apply_overrides(
    overrides: Iterable[Override], rulebook: Rulebook, on: date
) -> tuple[tuple[Rule, ...], tuple[OverrideLine, ...]]:
    """The rules in force on a day as changed, and what the sheet prints of each change, in force or not.

    Of several changes to one figure the most careful stands, whatever their order.
    """
    rules = {rule.id: rule for rule in rulebook.rules if rule.holds_on(on)}
    printed = []
    for override in sorted(overrides, key=lambda each: (each.rule, each.figure, -_rank(each))):
        refused = refusal(override, rulebook, on)
        rule = rulebook.rule(override.rule)
        if refused is None:
            _change(rules, override)
        printed.append(_printed(override, rule, refused))
    return tuple(rules.values()), tuple(printed)


def _change(rules: dict[str, Rule], override: Override) -> None:
    """Give the rule its new number; a choice or a stop that is set aside is not heard at all."""
    if not FIGURES[override.figure].careful:
        rules.pop(override.rule, None)
    elif rule := rules.get(override.rule):
        rules[rule.id] = replace(rule, gives={**rule.gives, override.figure: override.value})


def _rank(override: Override) -> float:
    figure = FIGURES.get(override.figure)
    return figure.rank(override.value) if figure and figure.allows(override.value) else 0


def _printed(override: Override, rule: Rule | None, refused: Words | None) -> OverrideLine:
    return OverrideLine(
        rule=override.rule,
        old=rule.gives.get(override.figure) if rule else None,
        new=override.value,
        by=override.by,
        on=override.on,
        reason=override.reason,
        expires=override.expires,
        evidence=override.evidence,
        refused=refused,
    )
