"""A figure that is a day and not a number."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from hub.science.quantity import Source, Unit
from hub.words import Words


@dataclass(frozen=True)
class OnDay:
    """A day, and the first and last that it could be."""

    value: date
    source: Source
    earliest: date | None = None
    latest: date | None = None
    level: float = 1.0
    warnings: tuple[Words, ...] = ()
    unit: Unit = Unit.DATE

    @property
    def low(self) -> date:
        return self.earliest or self.value

    @property
    def high(self) -> date:
        return self.latest or self.value
