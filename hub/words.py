"""Sentences for people, written in pure code and translated only where they are shown.

``say`` marks a text for the message catalogues and keeps its values apart, so that rules,
actions and frozen sheets can carry sentences without knowing any language or any web.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Any


@dataclass(frozen=True)
class Words:
    """One sentence: an English message id, its values, and its plural when it counts.

    ``str()`` gives the English text; ``hub.web.language`` gives the reader's own.
    """

    text: str
    values: Mapping[str, Any] = field(default_factory=dict)
    plural: str | None = None

    def __str__(self) -> str:
        chosen = self.text if self.plural is None or self.values.get("n") == 1 else self.plural
        return chosen.format(**{name: str(value) for name, value in self.values.items()})

    def __hash__(self) -> int:
        return hash((self.text, self.plural, str(self)))

    def as_json(self) -> dict[str, Any]:
        """The stored form: message id and values, so a frozen sheet can be read in any language."""
        values = {name: _stored(value) for name, value in self.values.items()}
        stored: dict[str, Any] = {"text": self.text}
        if values:
            stored["values"] = values
        if self.plural is not None:
            stored["plural"] = self.plural
        return stored

    @classmethod
    def from_json(cls, stored: Mapping[str, Any]) -> Words:
        """Read back what ``as_json`` wrote."""
        values = {name: _read_back(value) for name, value in stored.get("values", {}).items()}
        return cls(stored["text"], values, stored.get("plural"))


def _stored(value: Any) -> Any:
    """One value as plain JSON: a sentence within the sentence, a day, or as it is."""
    if isinstance(value, Words):
        return value.as_json()
    return {"day": value.isoformat()} if type(value) is date else value


def _read_back(value: Any) -> Any:
    if not isinstance(value, Mapping):
        return value
    return date.fromisoformat(value["day"]) if "day" in value else Words.from_json(value)


def say(text: str, **values: Any) -> Words:
    """A sentence with named values: ``say("At most {n} seeds.", n=40)``."""
    return Words(text, values)


def say_n(text: str, plural: str, *, n: int, **values: Any) -> Words:
    """A sentence that counts: the first form for one, the second for the rest."""
    return Words(text, {"n": n, **values}, plural)


class Refused(Exception):
    """An action that the rules do not allow, in words for the person who asked.

    ``field`` names the form field or JSON member the sentence belongs beside, when there is one.
    """

    def __init__(self, words: Words, *, field: str | None = None) -> None:
        super().__init__(str(words))
        self.words = words
        self.field = field


class NotFound(Exception):
    """The thing asked for does not exist, or not for the person who asks: the two look alike."""
