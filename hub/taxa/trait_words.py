"""Plain words for the short lists of a species' record, in the order in which pages offer them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from hub.taxa.closed_lists import Worded
from hub.taxa.models import Difficulty, Evidence, StandingKind
from hub.words import Words, say

DIFFICULTIES = {
    Difficulty.EASY: say("easy to collect"),
    Difficulty.MEDIUM: say("takes some practice"),
    Difficulty.HARD: say("hard to collect well"),
}

EVIDENCE = {
    Evidence.PUBLISHED: say("published, and read"),
    Evidence.SECONDARY: say("published, read in a later work"),
    Evidence.MEMORY: say("from memory: not checked"),
    Evidence.DEFAULT: say("our own default: not checked"),
}

KINDS = {
    StandingKind.RANK: say("Rank"),
    StandingKind.CATEGORY: say("Red List category"),
    StandingKind.LISTING: say("Legal list"),
}

PRIORITIES = {1: say("first"), 2: say("second"), 3: say("when there is time")}

ANSWERS = [("yes", say("yes")), ("no", say("no")), ("", say("not known"))]
"""An empty answer says nothing, which is not the same as no."""

NONE_KNOWN = ("none", say("none known: somebody has looked"))

SENSITIVITIES = {
    1: say("1: no locality at all"),
    2: say("2: to about 10 km"),
    3: say("3: to about 1 km"),
    4: say("4: to about 100 m"),
}


def offered(words: Mapping[Any, Words]) -> list[tuple[str, Words]]:
    """Choices for a form or a filter."""
    return [(str(value), each) for value, each in words.items()]


def offered_list(kind: Iterable[Worded]) -> list[tuple[str, Words]]:
    """Choices from a closed list that carries its own words."""
    return [(member.value, member.words) for member in kind]
