"""The boxes of a calculator: each knows its label, unit and limits, on the page and in the API alike."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from enum import StrEnum
from typing import Any

import marshmallow
from marshmallow import ValidationError, fields

from hub.science.quantity import MOST, Unit
from hub.web.fields import Choice, Day, Measure, Several, Whole, Yes, refusal
from hub.words import Words, say

LONGEST_LIST = 2000
SPACE = re.compile(r"[\s;]+|,\s+")
NOT_SO = say("“{typed}”: {problem}")
HOW_TO_LIST = say("One after the other, with spaces or line breaks between them.")


class Number(Measure):
    """A measured number that loads as a float."""

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> Any:
        return float(super()._deserialize(value, attr, data, **kwargs))


class Figures(Several):
    """Several numbers: a list from a program, or whatever a person wrote into one box."""

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> list[Any]:
        if not isinstance(value, list):
            raise self.make_error("invalid")
        return [self.one(piece) for each in value for piece in pieces(each)]

    def one(self, typed: Any) -> Any:
        """One number; what cannot be read is named, for it stands among many."""
        try:
            return self.inner.deserialize(typed)
        except ValidationError as wrong:
            problem = wrong.messages[0] if isinstance(wrong.messages, list) else ""
            raise refusal(Words(NOT_SO.text, {"typed": str(typed)[:40], "problem": problem})) from None


def pieces(value: Any) -> Iterator[Any]:
    if isinstance(value, str):
        yield from filter(None, SPACE.split(value))
    else:
        yield value


def amount(
    label: Words,
    unit: Unit,
    low: float = 0,
    high: float = MOST,
    *,
    usual: float | None = None,
    needed: bool = True,
    hint: Words | None = None,
) -> Number:
    """A measured amount. With ``usual`` it may be left out; not ``needed``, it may stay unknown."""
    if not needed:
        return Number(unit.value, low, high, load_default=None, **about(label, unit, hint))
    return Number(unit.value, low, high, **described(label, unit, hint, usual))


def whole(
    label: Words,
    unit: Unit,
    low: int = 0,
    high: int = MOST,
    *,
    usual: int | None = None,
    hint: Words | None = None,
) -> Whole:
    """A count."""
    return Whole(low, high, unit.value, **described(label, unit, hint, usual, whole=True))


def share(
    label: Words, low: float = 0, high: float = 1, *, usual: float | None = None, hint: Words | None = None
) -> Number:
    """A part of one: 0.2 is a fifth."""
    return amount(label, Unit.SHARE, low, high, usual=usual, hint=hint)


def level(usual: float = 0.95) -> Number:
    """How sure the interval is to be."""
    return share(say("How sure the interval is"), 0.5, 0.9999, usual=usual)


def amounts(
    label: Words, unit: Unit, low: float = 0, high: float = MOST, *, least: int = 1, hint: Words = HOW_TO_LIST
) -> Figures:
    """Several measured amounts; with ``least`` 0 there may be none."""
    inner = Number(unit.value, low, high)
    return Figures(inner, least=least, most=LONGEST_LIST, **about(label, unit, hint, many=True))


def counts(
    label: Words, unit: Unit, low: int = 0, high: int = MOST, *, least: int = 1, hint: Words = HOW_TO_LIST
) -> Figures:
    """Several counts."""
    inner = Whole(low, high, unit.value)
    return Figures(inner, least=least, most=LONGEST_LIST, **about(label, unit, hint, many=True))


def choice(
    label: Words, names: Mapping[StrEnum, Words], usual: StrEnum, *, hint: Words | None = None
) -> Choice:
    """One of a few, each with the words that people read."""
    offered = [(str(each.value), words) for each, words in names.items()]
    return Choice(type(usual), load_default=usual, **about(label, None, hint, choices=offered))


def tick(label: Words, *, hint: Words | None = None) -> Yes:
    return Yes(**about(label, None, hint, tick=True))


def day(label: Words, *, hint: Words | None = None) -> Day:
    return Day(required=True, **about(label, None, hint, day=True))


def described(
    label: Words, unit: Unit | None, hint: Words | None, usual: Any, **drawn: Any
) -> dict[str, Any]:
    """Options of a field: needed, unless something usual stands in for it."""
    needed = {"required": True} if usual is None else {"load_default": usual}
    return {**needed, **about(label, unit, hint, **drawn)}


def about(label: Words, unit: Unit | None, hint: Words | None, **drawn: Any) -> dict[str, Any]:
    """What the page prints around the box, and what the API's document says of it."""
    words: dict[str, Any] = {"label": label, "hint": hint, "unit": unit.value if unit else None, **drawn}
    if unit is not None:
        words["x-unit"] = str(unit.value)
    return {"metadata": {**words, "description": str(label)}}


def boxes(schema: marshmallow.Schema) -> Iterator[tuple[str, fields.Field[Any]]]:
    """The boxes of a schema in their order."""
    yield from schema.load_fields.items()
