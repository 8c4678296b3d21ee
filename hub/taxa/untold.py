"""What a note for everybody may not say: names of places and ways to them, from a feature that knows them.

Sites know species; species may not know sites. So whoever writes a public note asks what has been registered,
and may write anything when nothing has.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from itertools import pairwise
from typing import Self
from uuid import UUID

from hub.db.work import Work
from hub.taxa.names.parts import search_key
from hub.words import Refused, Words, say

Source = Callable[[Work, UUID], Iterable[str]]
_sources: list[Source] = []
WORD = re.compile(r"[^\W_]+")
TELLING = 4  # letters; shorter words stand in every sentence
SHOWN = 60  # characters of a note that a refusal repeats
Run = tuple[str, ...]


def tells_places(source: Source) -> Source:
    """Register texts about a bank's places, each a name or a way to one."""
    _sources[:] = [source]
    return source


@dataclass(frozen=True)
class Untold:
    """Whole names, and every two telling words that stand side by side in a text about a place."""

    runs: frozenset[Run]

    @classmethod
    def of(cls, work: Work, bank_id: UUID) -> Self:
        texts = [text for source in _sources for text in source(work, bank_id)]
        return cls(frozenset(run for text in texts for run in runs_of(text)))

    def trouble(self, note: str) -> Words | None:
        """Why a note cannot be public, naming the words that give a place away; None where it can."""
        for given in told_runs(note):
            if given in self.runs:
                return say(
                    "Everybody can read this note, and “{words}” is part of the name of one of your sites or "
                    "of the way there. Leave the place out: those let in find it on the site’s own page.",
                    words=" ".join(given)[:SHOWN],
                )
        return None


def runs_of(text: str) -> set[Run]:
    """What a text about a place gives away: two telling words in a row, or a name of one telling word."""
    words = words_of(text)
    alone = {(words[0],)} if len(words) == 1 and len(words[0]) >= TELLING else set()
    return alone | pairs(words)


def told_runs(note: str) -> list[Run]:
    """The pairs and single words of a note, the pairs first."""
    words = words_of(note)
    return [*sorted(pairs(words)), *((word,) for word in words)]


def pairs(words: list[str]) -> set[Run]:
    """Words side by side, both long enough to tell something."""
    return {pair for pair in pairwise(words) if min(map(len, pair)) >= TELLING}


def words_of(text: str) -> list[str]:
    """The words of a text in plain small letters."""
    return WORD.findall(search_key(text))


def refuse_places(work: Work, bank_id: UUID, note: str) -> None:
    """Raise Refused beside the note when it gives a place of this bank away."""
    trouble = Untold.of(work, bank_id).trouble(note) if note else None
    if trouble:
        raise Refused(trouble, field="note")
