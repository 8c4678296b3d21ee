"""States of an adoption, the stages its work passes through, and who may hold a species."""

from __future__ import annotations

from enum import StrEnum

from hub.taxa.rules import CareClass


class AdoptionState(StrEnum):
    """Where an adoption stands."""

    REQUESTED = "requested"
    ACTIVE = "active"
    FULFILLED = "fulfilled"
    DECLINED = "declined"
    RELEASED = "released"
    LAPSED = "lapsed"
    SUSPENDED = "suspended"


ADOPTION_MOVES: dict[AdoptionState, frozenset[AdoptionState]] = {
    AdoptionState.REQUESTED: frozenset({AdoptionState.ACTIVE, AdoptionState.DECLINED}),
    AdoptionState.ACTIVE: frozenset(
        {AdoptionState.FULFILLED, AdoptionState.RELEASED, AdoptionState.LAPSED, AdoptionState.SUSPENDED}
    ),
    AdoptionState.SUSPENDED: frozenset({AdoptionState.ACTIVE}),
    AdoptionState.FULFILLED: frozenset(),
    AdoptionState.DECLINED: frozenset(),
    AdoptionState.RELEASED: frozenset(),
    AdoptionState.LAPSED: frozenset(),
}

HOLDING = frozenset(
    {AdoptionState.REQUESTED, AdoptionState.ACTIVE, AdoptionState.SUSPENDED, AdoptionState.FULFILLED}
)


class Stage(StrEnum):
    """How far a species has got on its way into the bank, in the order of the season."""

    ASKED = "asked"
    ADOPTED = "adopted"
    PERMITTED = "permitted"
    READY = "ready"  # a sheet that may be collected under
    HANDED_IN = "handed in"
    BANKED = "banked"


# A population of one of these care classes is held by one group alone.
ONE_GROUP_PER_POPULATION = frozenset({CareClass.RARE, CareClass.CRITICAL, CareClass.UNKNOWN})
