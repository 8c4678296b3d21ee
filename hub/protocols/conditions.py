"""When a rule speaks: simple tests over named facts, written as a botanist would.

``true`` / ``false``; a word of the fact's list; ``"not spore, nut"``; ``"< 20"``, ``">= 50"``,
``"20 to 49"``; ``"known"``. A list means any of these. A fact that is unknown answers
neither yes nor no, unless the list itself says ``"unknown"``.
"""

from __future__ import annotations

import operator
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from hub.protocols.facts import Facts, Kind

Test = Callable[[Any], bool]

_COMPARISONS: dict[str, Callable[[Any, Any], bool]] = {
    "<": operator.lt,
    "<=": operator.le,
    ">": operator.gt,
    ">=": operator.ge,
}


class BadCondition(ValueError):
    """A condition that makes no sense for its fact, found when the rulebook is read."""


@dataclass(frozen=True)
class Condition:
    """One fact and the answers that fit; ``unknown_fits`` is ``None`` when only knowing it would tell."""

    fact: str
    tests: tuple[Test, ...]
    unknown_fits: bool | None
    wanted: tuple[Any, ...] = ()  # as the rulebook writes them, for people to read

    def fits(self, facts: Facts) -> bool | None:
        """Yes, no, or ``None``: nobody knows the fact."""
        value = facts[self.fact]
        if value is None:
            return self.unknown_fits
        return any(test(value) for test in self.tests)


def conditions(when: Mapping[str, Any], kinds: Mapping[str, Kind]) -> tuple[Condition, ...]:
    """Read the ``when`` table of a rule. Raises ``BadCondition``."""
    return tuple(_condition(fact, wanted, kinds) for fact, wanted in when.items())


def _condition(fact: str, wanted: Any, kinds: Mapping[str, Kind]) -> Condition:
    if fact not in kinds:
        raise BadCondition(f"there is no fact “{fact}”")
    answers = wanted if isinstance(wanted, list) else [wanted]
    tests = tuple(_test(fact, each, kinds[fact]) for each in answers if each != "unknown")
    unknown_fits = True if "unknown" in answers else (False if answers == ["known"] else None)
    return Condition(fact, tests, unknown_fits, tuple(answers))


def _test(fact: str, wanted: Any, kind: Kind) -> Test:
    if wanted == "known":
        return lambda _: True
    if kind is bool and isinstance(wanted, bool):
        return lambda value: bool(value) is wanted
    if kind is float and isinstance(wanted, str):
        return _number_test(fact, wanted)
    if isinstance(wanted, str) and kind not in (bool, float):
        return _word_test(fact, wanted, kind)
    raise BadCondition(f"“{wanted}” is no answer to “{fact}”")


def _number_test(fact: str, wanted: str) -> Test:
    match wanted.split():
        case [sign, bound] if sign in _COMPARISONS:
            compare, limit = _COMPARISONS[sign], float(bound)
            return lambda value: compare(value, limit)
        case [low, "to", high]:
            least, most = float(low), float(high)
            return lambda value: bool(least <= value <= most)
    raise BadCondition(f"“{wanted}” is no test of the number “{fact}”")


def _word_test(fact: str, wanted: str, kind: Kind) -> Test:
    excluded = wanted.startswith("not ") and wanted not in _listed(kind)
    words = frozenset(wanted.removeprefix("not ").split(", ")) if excluded else frozenset({wanted})
    if isinstance(kind, frozenset) and not words <= kind:
        raise BadCondition(f"“{wanted}” is no answer to “{fact}”; it knows {', '.join(sorted(kind))}")
    return lambda value: bool(words & _several(value)) is not excluded


def _listed(kind: Kind) -> frozenset[str]:
    return kind if isinstance(kind, frozenset) else frozenset()


def _several(value: Any) -> frozenset[str]:
    """A fact with several answers at once, such as the dangers of a site, or with just one."""
    return frozenset({value}) if isinstance(value, str) else frozenset(value)
