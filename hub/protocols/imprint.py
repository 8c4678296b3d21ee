"""What stands around the rules on a printed sheet: its number and where that leads, who issued it to whom."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from hub.protocols.models import SheetState
from hub.words import Words, say

STATES = {
    SheetState.CURRENT: say("holds now"),
    SheetState.SUPERSEDED: say("replaced"),
    SheetState.WITHDRAWN: say("withdrawn"),
}


SEASON_OVER = "season over"


def standing(state: SheetState, status: str, closes_on: date, today: date) -> str:
    """What a sheet’s badge says: how it ended, or that its season has; else what the sheet itself says.

    A sheet is taken back soon after its season has closed. Until then nobody may read it as ready.
    """
    if state is not SheetState.CURRENT:
        return str(state)
    return SEASON_OVER if closes_on < today else status


@dataclass(frozen=True)
class Imprint:
    """The frame of one sheet. Without a number it was never issued, and nobody may collect by it.

    Places stand here by the names that the group knows; a position is never printed.
    """

    taxon: str
    common_name: str
    bank: str
    group: str
    population: str
    number: str = ""
    address: str = ""  # where the QR code leads
    site: str = ""
    bank_email: str = ""
    law_note: str = ""
    issued_on: date | None = None
    ended: Words | None = None  # why it holds no longer, across every page


def imprint_of(case: Mapping[str, Any]) -> Imprint:
    """The frame that a case alone can give."""
    return Imprint(
        taxon=case["taxon"]["name"],
        common_name=case["taxon"]["common_name"],
        bank=case["bank"]["name"],
        group=case["party"]["group"],
        population=case["population"]["name"],
    )


def ended_words(state: SheetState, successor: str) -> Words | None:
    """What stands across a sheet that holds no longer."""
    if state is SheetState.SUPERSEDED:
        return say("No longer valid: use {number}", number=successor or "…")
    return say("Withdrawn: do not use") if state is SheetState.WITHDRAWN else None
