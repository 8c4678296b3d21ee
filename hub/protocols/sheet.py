"""The sheet: what the rules say for one case, with the reason for every line.

A sheet is a value. Two sheets from the same case, rulebook, overrides and day are equal,
and ``Sheet.from_json(sheet.as_json())`` gives the same sheet back, so that an issued one
can be frozen as JSON and read again whatever the rules say by then.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields
from datetime import date
from enum import StrEnum
from fractions import Fraction
from math import ceil, floor
from typing import Any

from hub.protocols.stored import restored, stored
from hub.words import Words


class Status(StrEnum):
    """Whether the sheet may be used for collecting."""

    READY = "ready"
    NOT_YET = "not_yet"
    STOP = "stop"


class Evidence(StrEnum):
    """How good the ground under a line is, best first."""

    PUBLISHED = "published"  # read in the publication named
    SECONDARY = "secondary"  # read in a report of it
    MEMORY = "memory"  # common in the trade, not checked in a publication
    DEFAULT = "default"  # our own choice


class Section(StrEnum):
    """The parts of a sheet, in the order in which they are read."""

    COLLECT = "collect"
    MATURITY = "maturity"
    QUALITY = "quality"
    CONTAINERS = "containers"
    LABELS = "labels"
    TRANSPORT = "transport"
    AFTER = "after"
    CAUTIONS = "cautions"
    PAPERWORK = "paperwork"


@dataclass(frozen=True)
class Source:
    """A publication, as the sheet cites it."""

    key: str
    author: str
    year: str
    title: str
    link: str = ""


@dataclass(frozen=True)
class Line:
    """One thing the sheet says, and everything needed to answer "why?".

    ``value`` is the bare figure or choice (``None`` while unknown) in ``unit``; ``inputs``
    are the facts that decided, by name; ``sources`` are keys into ``Sheet.sources``:
    the publications the figure comes from, or, for a default or a remembered value,
    those that point the same way (``evidence`` says which).
    """

    topic: str
    text: Words
    plain: Words
    why: Words
    rules: tuple[str, ...]
    evidence: Evidence
    sources: tuple[str, ...] = ()
    inputs: Mapping[str, Any] | None = None
    value: Any = None
    unit: str = ""


@dataclass(frozen=True)
class FruitRow:
    """A plant with this many ripe fruits may lose at most this many whole fruits or good seeds."""

    ripe_fruits: int
    take_fruits: int
    take_seeds: int | None = None


@dataclass(frozen=True)
class Headline:
    """The essential numbers, each a line with its reasons.

    ``allowance_*`` belong to the population and year, all groups together; ``left_*`` are
    what this group may still take, and are the ones to print large. Values: ``handling``
    ``by_mother`` or ``bulk``; ``drying`` and ``freezing`` ``never``, ``bank`` or ``home``;
    shares 0 to 1; counts whole numbers or ``None`` while unknown.
    """

    handling: Line
    season_share: Line
    visit_share: Line
    plant_share: Line
    crop_seeds: Line
    allowance_seeds: Line
    allowance_fruits: Line
    left_seeds: Line
    left_fruits: Line
    mothers_goal: Line
    mothers_minimum: Line
    seed_goal: Line
    container: Line
    hours_to_bank: Line
    drying: Line
    freezing: Line
    counts: Line  # what counts as one fruit on this sheet: a head, a pod, a cone
    fruit_table: tuple[FruitRow, ...] = ()
    none_below: int | None = None  # a plant with fewer ripe fruits gives none

    def most_from(self, ripe_fruits: int) -> int | None:
        """Whole fruits that one plant with so many ripe ones may lose; nothing while its share is unknown."""
        if self.plant_share.value is None:
            return None
        part = Fraction(str(self.plant_share.value)) * ripe_fruits
        below = self.none_below is not None and (self.none_below - 1) * self.plant_share.value >= 1
        return max(0, ceil(part) - 1) if below else floor(part)

    def lines(self) -> Iterator[tuple[str, Line]]:
        """Every figure by name, in the order in which they are read."""
        for each in fields(self):
            value = getattr(self, each.name)
            if isinstance(value, Line):
                yield each.name, value


@dataclass(frozen=True)
class Ask:
    """A fact nobody has told us. When ``needed``, the sheet is not ready without it."""

    fact: str
    question: Words
    plain: Words
    needed: bool


@dataclass(frozen=True)
class OverrideLine:
    """A bank's departure from a rule, printed whole. ``refused`` says why it is not in force."""

    rule: str
    old: Any
    new: Any
    by: str
    on: date
    reason: str
    expires: date
    evidence: str = ""
    refused: Words | None = None


@dataclass(frozen=True)
class Sheet:
    """The outcome for one case on one day."""

    status: Status
    on: date
    season: int
    reasons: tuple[Line, ...]  # why it is not ready; empty when it is
    headline: Headline
    sections: Mapping[Section, tuple[Line, ...]]
    considered: tuple[Line, ...]  # rules that spoke but were outvoted by more careful ones
    asks: tuple[Ask, ...]
    overrides: tuple[OverrideLine, ...]
    sources: tuple[Source, ...]
    route: str  # dry, fast, moist, untested or spores
    case: Mapping[str, Any]  # the inputs, as JSON
    heard: tuple[str, ...]  # ids of all the rules that spoke
    rulebook: str  # digest of the rulebook they stand in

    def lines(self) -> Iterator[Line]:
        """Every line on the sheet: reasons, figures, then sections."""
        yield from self.reasons
        for _, figure in self.headline.lines():
            yield figure
        for lines in self.sections.values():
            yield from lines

    def as_json(self) -> dict[str, Any]:
        """Plain JSON that ``from_json`` reads back exactly."""
        return dict(stored(self))

    @classmethod
    def from_json(cls, data: Mapping[str, Any]) -> Sheet:
        """Read a stored sheet back."""
        return restored(cls, data)
