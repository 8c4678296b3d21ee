"""How a check answers: the three severities, and the small readings that several checks share."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import partial, reduce
from types import MappingProxyType
from typing import Any, NamedTuple

from hub.protocols.stored import stored
from hub.vetting.evidence import Evidence
from hub.vetting.finding import Finding
from hub.vetting.rules import Severity
from hub.words import Words, say

Answers = Iterator[Finding]
NO_FIGURES: Mapping[str, Any] = MappingProxyType({})


class Check(NamedTuple):
    """One check: what it is called on screen, and the function that looks. Its id is the function’s name."""

    title: Words
    looks: Callable[[Evidence], Answers]

    @property
    def id(self) -> str:
        return self.looks.__name__


def _answer(
    severity: Severity,
    check: str,
    words: Words,
    source: Words | str,
    figures: Mapping[str, Any] = NO_FIGURES,
    *,
    about: str = "",
) -> Finding:
    """A finding whose figures are plain JSON, whatever the check reckoned with."""
    return Finding(check, severity, words, stored(figures), source, about)


stop = partial(_answer, Severity.STOP)
query = partial(_answer, Severity.QUERY)
note = partial(_answer, Severity.NOTE)


def listed(words: Iterable[Words]) -> Words:
    """Several short phrases in one, each in the reader’s language; at least one."""
    return reduce(lambda some, more: say("{some}; {more}", some=some, more=more), words)


def percent(share: float) -> str:
    """A share (0 to 1) as people write it in a sentence, to three figures: 12.5%."""
    return f"{100 * share:.3g}%" if share < 1 else f"{100 * share:.0f}%"


def limit_of(value: Any) -> float | None:
    """The number that a line of a sheet holds; nothing while the sheet does not know it."""
    return value if isinstance(value, int | float) and not isinstance(value, bool) else None
