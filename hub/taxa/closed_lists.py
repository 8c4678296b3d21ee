"""Closed lists whose members are stored as short text and shown in plain words."""

from __future__ import annotations

from enum import StrEnum
from typing import Self

from hub.words import Words

# Only a type checker needs a default: looking a member up by its value passes no words.
_WORDLESS = Words("")


class Worded(StrEnum):
    """A list of values that each carry the words people read."""

    words: Words

    def __new__(cls, value: str, words: Words = _WORDLESS) -> Self:
        """Keep the words on the member, so that none can be listed without them."""
        member = str.__new__(cls, value)
        member._value_ = value
        member.words = words
        return member


def label(member: Worded) -> Words:
    """The plain words for one member of a closed list, for screens and sheets."""
    return member.words
