"""The field form of one sheet: the rows of its tally, the steps it asks about, the tags that go along."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from hub.protocols.codes import qr, tag_code
from hub.protocols.sheet import FruitRow, Sheet

MOST_ROWS = 108  # two pages; more mothers take a second print
SPARE_ROWS = 4  # a plant is skipped, a flag is lost
UNCOUNTED_ROWS = 30
BAGS = 6  # labels for the bags of one bulk collection
ROWS_A_COLUMN = 27  # so that fifty mothers and the spare rows fill one page


@dataclass(frozen=True)
class Tag:
    """One label to tie on, and its twin to put inside."""

    flag: str
    qr: str | None


@dataclass(frozen=True)
class Plan:
    """What the form prints beside its fixed boxes."""

    by_mother: bool
    flags: tuple[str, ...]
    columns: tuple[Sequence[str], ...]  # the flags as they stand side by side on a page
    table: tuple[FruitRow, ...]
    tags: tuple[Tag, ...]
    dries: bool  # whether this group dries seed itself, and so writes down how
    freezes: bool


def plan(sheet: Sheet, number: str) -> Plan:
    """The form that fits a sheet; ``number`` is empty on a sheet that was never issued."""
    headline = sheet.headline
    by_mother = headline.handling.value == "by_mother"
    flags = flags_for(headline.mothers_goal.value) if by_mother else ()
    return Plan(
        by_mother=by_mother,
        flags=flags,
        columns=tuple(flags[at : at + ROWS_A_COLUMN] for at in range(0, len(flags), ROWS_A_COLUMN)),
        table=headline.fruit_table,
        tags=tuple(Tag(flag, coded(number, flag)) for flag in flags or bags()),
        dries=headline.drying.value != "never",
        freezes=headline.freezing.value == "home",
    )


def flags_for(goal: int) -> tuple[str, ...]:
    """``M1``, ``M2`` … one for each mother and a few to spare."""
    rows = min(MOST_ROWS, (goal or UNCOUNTED_ROWS - SPARE_ROWS) + SPARE_ROWS)
    return tuple(f"M{at}" for at in range(1, rows + 1))


def bags() -> tuple[str, ...]:
    return tuple(f"B{at}" for at in range(1, BAGS + 1))


def coded(number: str, flag: str) -> str | None:
    return qr(tag_code(number, flag)) if number else None
