"""Asks each rule whether it speaks, and settles what the spoken ones say together."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from hub.protocols.facts import Facts
from hub.protocols.figures import FIGURES
from hub.protocols.rulebook_reader import Rule
from hub.words import Refused, say


@dataclass(frozen=True)
class Spoken:
    """A rule that speaks in this case, the facts that decided, and those of them that nobody knows."""

    rule: Rule
    gives: Mapping[str, Any]
    inputs: Mapping[str, Any]
    unknown: tuple[str, ...]


@dataclass(frozen=True)
class Settled:
    """What several rules come to: the value, the rule that gave it first, then those outvoted."""

    value: Any
    spoken: tuple[Spoken, ...]

    @property
    def winner(self) -> Spoken:
        """The most careful rule, whose answer stands."""
        return self.spoken[0]


@dataclass
class Hearing:
    """One case before the rules, heard in stages as the engine learns more."""

    rules: tuple[Rule, ...]
    spoken: list[Spoken] = field(default_factory=list)
    unanswered: set[str] = field(default_factory=set)  # facts that would have decided, had anyone known them

    def hear(self, stage: int, facts: Facts) -> None:
        """Ask the rules of one stage."""
        for rule in self.rules:
            if rule.stage == stage:
                self._ask(rule, facts)

    def _ask(self, rule: Rule, facts: Facts) -> None:
        answers = {}
        for each in rule.when:
            answers[each.fact] = each.fits(facts)
            if answers[each.fact] is False:
                return
        unknown = tuple(fact for fact in answers if facts[fact] is None)
        self.unanswered.update(unknown)
        if None not in answers.values():
            gives = {name: _given(name, value, facts) for name, value in rule.gives.items()}
            self.spoken.append(Spoken(rule, gives, {fact: facts[fact] for fact in answers}, unknown))

    def settle(self, figure: str) -> Settled:
        """The most careful answer to one figure. Raises ``Refused`` when no rule in force gives it."""
        voices = self.giving(figure)
        if not voices:
            raise Refused(say("No rule in force on this day decides “{figure}”.", figure=figure))
        lifted = [each for each in voices if figure in each.rule.lifts]
        rank = FIGURES[figure].rank
        ordered = sorted(lifted or voices, key=lambda each: rank(each.gives[figure]))
        return Settled(
            ordered[0].gives[figure], (*ordered, *(each for each in voices if each not in ordered))
        )

    def giving(self, figure: str) -> list[Spoken]:
        """Every rule that gives a figure, outvoted or not."""
        return [each for each in self.spoken if figure in each.gives]

    @property
    def stopped(self) -> bool:
        """Whether any rule forbids collecting outright."""
        return any(each.gives["verdict"] == "stop" for each in self.giving("verdict"))

    def factors(self) -> list[Spoken]:
        """The rules that lower the share further, unless one sets them aside."""
        return [] if self.lifted("season_factor") else self.giving("season_factor")

    def lifted(self, figure: str) -> bool:
        """Whether a rule sets the usual answers to a figure aside."""
        return any(figure in each.rule.lifts for each in self.spoken)


def _given(name: str, value: Any, facts: Facts) -> Any:
    """A figure as the rule gives it; a word that is no answer of the figure names a fact."""
    return value if FIGURES[name].allows(value) else facts[value]


def named(spoken: Iterable[Spoken]) -> Iterator[str]:
    """The ids of the rules."""
    return (each.rule.id for each in spoken)
