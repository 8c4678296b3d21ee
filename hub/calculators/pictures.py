"""The pictures that help to see an answer, as plain figures; the templates draw them."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from hub.words import Words

Point = tuple[float, float]
STEPS = 60
"""Points of a drawn curve: enough for the eye on any screen."""

FEWEST_STEPS = 4


@dataclass(frozen=True)
class Axis:
    """From where to where an axis reaches, and the round numbers written along it."""

    low: float
    high: float
    ticks: tuple[float, ...]

    def part(self, value: float) -> float:
        """Where a value lies along the axis: 0 at its low end, 1 at its high end."""
        return (value - self.low) / (self.high - self.low)


def axis(values: Sequence[float]) -> Axis:
    """An axis of round numbers that holds all the values."""
    low, high = min(values), max(values)
    step = round_step((high - low) or abs(high) or 1.0)
    first, last = math.floor(low / step), math.ceil(high / step)
    ends = range(first, max(last, first + 1) + 1)
    ticks = tuple(round(at * step, 12) for at in ends)
    return Axis(ticks[0], ticks[-1], ticks)


def round_step(span: float) -> float:
    """1, 2 or 5 times a power of ten, so that four to nine steps make the span."""
    power = 10.0 ** math.floor(math.log10(span / FEWEST_STEPS))
    return max(times * power for times in (1, 2, 5) if times * power * FEWEST_STEPS <= span)


@dataclass(frozen=True)
class Curve:
    """How one quantity follows another, with the asked point marked."""

    title: Words
    across: Words
    up: Words
    points: tuple[Point, ...]
    marked: Point | None = None

    kind = "curve"

    @property
    def along(self) -> Axis:
        """The axis below."""
        return axis([along for along, _ in self._all])

    @property
    def upward(self) -> Axis:
        """The axis to the left, which begins at nothing unless the curve goes below."""
        return axis([0.0, *(up for _, up in self._all)])

    @property
    def _all(self) -> tuple[Point, ...]:
        return (*self.points, self.marked) if self.marked else self.points


@dataclass(frozen=True)
class Bars:
    """Several amounts beside each other: label, value, and the value with its unit."""

    title: Words
    heading: Words
    measure: Words
    rows: tuple[tuple[str | Words, float, str | Words], ...]

    kind = "bars"


@dataclass(frozen=True)
class ShareBar:
    """A share of one with its interval and, where there is one, the limit it is held against."""

    title: Words
    share: float
    low: float
    high: float
    limit: float | None = None

    kind = "share"


Picture = Curve | Bars | ShareBar


def traced(
    reckon: Callable[[float], float], low: float, high: float, steps: int = STEPS
) -> tuple[Point, ...]:
    """The points of a curve from ``low`` to ``high``, evenly spaced."""
    ends = [low + (high - low) * step / steps for step in range(steps + 1)]
    return tuple((along, reckon(along)) for along in ends)


def traced_whole(reckon: Callable[[int], float], low: int, high: int) -> tuple[Point, ...]:
    """The points of a curve over whole numbers, thinned where they are many."""
    stride = max((high - low) // STEPS, 1)
    wholes: Sequence[int] = [*range(low, high, stride), high]
    return tuple((float(along), reckon(along)) for along in wholes)
