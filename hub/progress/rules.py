"""What is missing where, when an adoption is stalled, and how far along a district is. Pure."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime, timedelta
from typing import TypeVar

from hub.adoptions.rules import STAGES, AdoptionState, Stage
from hub.words import Words, say

Place = TypeVar("Place")

# Days without any move after which an adoption counts as stalled. Our own defaults: no source is known.
# An owner takes time to answer, a ready sheet waits for ripe fruit, the bank should need two weeks
# to look at a collection, and half a year to clean, dry, test and store it.
STALLED_AFTER: dict[Stage, timedelta] = {
    Stage.ASKED: timedelta(days=14),
    Stage.ADOPTED: timedelta(days=30),
    Stage.PERMITTED: timedelta(days=30),
    Stage.READY: timedelta(days=60),
    Stage.HANDED_IN: timedelta(days=14),
    Stage.ACCESSIONED: timedelta(days=180),
}
# An adoption that a curator has paused stands still on purpose.
CAN_STALL = frozenset({AdoptionState.REQUESTED, AdoptionState.ACTIVE})

BANK, GROUP = say("the bank"), say("the group")
WAITS_FOR: dict[Stage, Words] = {
    Stage.ASKED: BANK,
    Stage.ADOPTED: GROUP,
    Stage.PERMITTED: GROUP,
    Stage.READY: GROUP,
    Stage.HANDED_IN: BANK,
    Stage.ACCESSIONED: BANK,
}

THIRDS = (1 / 3, 2 / 3)


def is_stalled(state: AdoptionState, stage: Stage, moved_at: datetime, now: datetime) -> bool:
    """Whether an adoption has not moved for longer than its stage should take."""
    after = STALLED_AFTER.get(stage)
    return state in CAN_STALL and after is not None and now - moved_at >= after


def missing(needed: Mapping[Place | None, int], held: Mapping[Place, int]) -> dict[Place | None, int]:
    """Populations that nobody has taken on, by district; under None those that may come from anywhere.

    One adoption is taken to cover one population. Adoptions beyond what their own district needs cover
    needs that are open to any place.
    """
    named = {place: wanted for place, wanted in needed.items() if place is not None}
    covered = sum(min(wanted, held.get(place, 0)) for place, wanted in named.items())
    lacks: dict[Place | None, int] = {None: needed.get(None, 0) - (sum(held.values()) - covered)}
    for place, wanted in named.items():
        lacks[place] = wanted - held.get(place, 0)
    return {place: count for place, count in lacks.items() if count > 0}


def shade(banked: int, adoptions: int) -> int:
    """How a district is drawn: 0 for nothing banked, then 1 to 3 by thirds of its adoptions banked."""
    if not banked:
        return 0
    return 1 + sum(banked / adoptions > third for third in THIRDS)


def key(stage: Stage) -> str:
    """The name of a stage's column in a table of counts: ``handed_in``."""
    return stage.name.lower()


LAST_STAGES = (Stage.HANDED_IN, Stage.ACCESSIONED, Stage.BANKED)  # what a table of districts counts
KEYS = tuple(key(stage) for stage in STAGES)
