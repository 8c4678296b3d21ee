"""States of a permission and of a salvage, and whether papers are valid on a day."""

from __future__ import annotations

from datetime import date
from enum import StrEnum


class PermissionState(StrEnum):
    """Where the owner's permission stands."""

    TO_ASK = "to ask"
    ASKED = "asked"
    GRANTED = "granted"
    REFUSED = "refused"
    EXPIRED = "expired"
    WITHDRAWN = "withdrawn"


PERMISSION_MOVES: dict[PermissionState, frozenset[PermissionState]] = {
    PermissionState.TO_ASK: frozenset({PermissionState.ASKED}),
    PermissionState.ASKED: frozenset({PermissionState.GRANTED, PermissionState.REFUSED}),
    PermissionState.GRANTED: frozenset({PermissionState.EXPIRED, PermissionState.WITHDRAWN}),
    PermissionState.REFUSED: frozenset(),
    PermissionState.EXPIRED: frozenset(),
    PermissionState.WITHDRAWN: frozenset(),
}


class Trend(StrEnum):
    """How a population has been doing."""

    RISING = "rising"
    STABLE = "stable"
    FALLING = "falling"
    UNKNOWN = "unknown"


class Threat(StrEnum):
    """What endangers a population."""

    NONE = "none"
    SLIGHT = "slight"
    SEVERE = "severe"
    IMMINENT_LOSS = "imminent loss"


class Origin(StrEnum):
    """Where the plants came from."""

    WILD = "wild"
    SOWN = "sown or planted"
    UNKNOWN = "unknown"


class CensusMethod(StrEnum):
    """How plants were counted."""

    COUNTED = "counted one by one"
    PLOTS = "plots"
    WALKED = "walked estimate"


class SalvageState(StrEnum):
    """Where the case for a doomed population stands: it needs the owner's and the curator's approval."""

    ASKED = "asked"
    APPROVED = "approved"
    REFUSED = "refused"


def runs_on(day: date, first: date | None, last: date | None) -> bool:
    """Whether a paper with these dates (both inclusive, either open) holds on this day."""
    return (first is None or first <= day) and (last is None or day <= last)
