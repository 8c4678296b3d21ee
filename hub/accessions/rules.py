"""States of an accession, kinds of lot and of ledger entry."""

from __future__ import annotations

from enum import StrEnum


class AccessionState(StrEnum):
    """Where an accession stands."""

    PROCESSING = "processing"
    STORED = "stored"
    LIVING = "living"
    EXHAUSTED = "exhausted"
    DEACCESSIONED = "deaccessioned"


ACCESSION_MOVES: dict[AccessionState, frozenset[AccessionState]] = {
    AccessionState.PROCESSING: frozenset({AccessionState.STORED, AccessionState.LIVING}),
    AccessionState.STORED: frozenset({AccessionState.EXHAUSTED, AccessionState.DEACCESSIONED}),
    AccessionState.LIVING: frozenset(),
    AccessionState.EXHAUSTED: frozenset(),
    AccessionState.DEACCESSIONED: frozenset(),
}


class LotKind(StrEnum):
    """Seed of one maternal line, or of many mothers together."""

    MATERNAL_LINE = "maternal line"
    BULK = "bulk"


class EntryKind(StrEnum):
    """Why a lot's balance changed."""

    BANKED = "banked"
    CORRECTED = "corrected"
    TESTED = "tested"
    DRAWN = "drawn"
    DUPLICATED = "duplicated"
    REGENERATED = "regenerated"
    LOST = "lost"
