"""What a calculator is: a question, its inputs, and an answer with interval, unit, source and picture."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Any, Protocol

import marshmallow
from marshmallow import fields

from hub.calculators.pictures import Picture
from hub.science.quantity import Source, Unit
from hub.web.fields import Schema
from hub.words import Words

Inputs = Mapping[str, fields.Field[Any]]
"""Every box of a calculator by its name, in the order in which they are asked."""


class Figure(Protocol):
    """What the science answers: a number or a day, between two ends, with its source."""

    @property
    def value(self) -> float | date: ...
    @property
    def low(self) -> float | date: ...
    @property
    def high(self) -> float | date: ...
    @property
    def level(self) -> float: ...
    @property
    def unit(self) -> Unit: ...
    @property
    def source(self) -> Source: ...
    @property
    def warnings(self) -> tuple[Words, ...]: ...


@dataclass(frozen=True)
class Part:
    """One figure of an answer, under the name that programs know and the words that people read."""

    name: str
    label: Words
    figure: Figure


@dataclass(frozen=True)
class Answer:
    """One or several figures, the one that was asked for first, and what helps to see them.

    ``verdict`` says in a sentence what the figures come to; ``cautions`` are about them all.
    """

    parts: tuple[Part, ...]
    picture: Picture | None = None
    verdict: Words | None = None
    cautions: tuple[Words, ...] = ()

    @property
    def warnings(self) -> list[Words]:
        """What every part and the whole warn of, each once."""
        inherited = [warning for part in self.parts for warning in part.figure.warnings]
        return list(dict.fromkeys((*inherited, *self.cautions)))

    @property
    def sources(self) -> list[Source]:
        """Where the figures come from, each source once."""
        return list(dict.fromkeys(part.figure.source for part in self.parts))


@dataclass(frozen=True)
class Use:
    """A page that can take figures of the answer into its boxes."""

    says: Words
    endpoint: str
    key: str  # the name of the id in that page's address
    boxes: Mapping[str, str]  # box there: part here


@dataclass(frozen=True)
class Calculator:
    """One question. ``example`` is a whole set of inputs: the page opens with its answer."""

    name: str
    topic: Words
    asks: Words
    says: Words
    formula: str
    schema: type[marshmallow.Schema]
    answers: Callable[..., Answer]
    example: Mapping[str, Any]
    uses: tuple[Use, ...] = ()

    def answer(self, sent: Mapping[str, Any]) -> Answer:
        """The answer to inputs that the schema has read. Raises Refused, ``OutOfRange`` among them."""
        return self.answers(**sent)

    def read(self, sent: Any) -> dict[str, Any]:
        """Inputs as a program sends them. Raises marshmallow’s ValidationError."""
        found: dict[str, Any] = self.schema().load(sent)
        return found


@dataclass
class Topic:
    """Calculators about one thing, in the order in which they are listed."""

    title: Words
    says: Words
    calculators: list[Calculator] = field(default_factory=list)

    def calculator(
        self,
        name: str,
        asks: Words,
        *,
        says: Words,
        formula: str,
        inputs: Inputs,
        example: Mapping[str, Any],
        uses: tuple[Use, ...] = (),
    ) -> Callable[[Callable[..., Answer]], Calculator]:
        """Declare a function that takes the inputs by name as a calculator of this topic."""
        schema = Schema.from_dict(dict(inputs), name="".join(part.title() for part in name.split("-")))

        def declare(answers: Callable[..., Answer]) -> Calculator:
            made = Calculator(name, self.title, asks, says, formula, schema, answers, example, uses)
            self.calculators.append(made)
            return made

        return declare
