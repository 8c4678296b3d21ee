"""States of an adoption, the stages its work passes through, and who may hold a species."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from hashlib import sha256
from uuid import UUID

from hub.groups.rules import AdoptionMode
from hub.taxa.closed_lists import Worded
from hub.taxa.rules import CareClass
from hub.words import Words, say, say_n


class AdoptionState(Worded):
    """Where an adoption stands."""

    REQUESTED = "requested", say("requested")
    ACTIVE = "active", say("active")
    FULFILLED = "fulfilled", say("fulfilled")
    DECLINED = "declined", say("declined")
    RELEASED = "released", say("released")
    LAPSED = "lapsed", say("lapsed")
    SUSPENDED = "suspended", say("suspended")


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

# The species counts as held by the group.
HOLDING = frozenset(
    {AdoptionState.REQUESTED, AdoptionState.ACTIVE, AdoptionState.SUSPENDED, AdoptionState.FULFILLED}
)
# The group has, or is about to have, work to do: what the limit for one group counts.
IN_HAND = HOLDING - {AdoptionState.FULFILLED}
# Seed is on its way, so the work can get further.
UNDER_WAY = frozenset({AdoptionState.ACTIVE, AdoptionState.SUSPENDED})
# Its seed can come into the bank's keeping, or leave it.
BANKABLE = UNDER_WAY | {AdoptionState.FULFILLED}


class Stage(Worded):
    """How far a species has got on its way into the bank, in the order of the season."""

    ASKED = "asked", say("asked for")
    ADOPTED = "adopted", say("adopted")
    PERMITTED = "permitted", say("permission granted")
    READY = "ready", say("sheet ready")  # a sheet that may be collected under
    HANDED_IN = "handed in", say("handed in")
    ACCESSIONED = "accessioned", say("accessioned")  # passed and numbered; the bank still works on it
    BANKED = "banked", say("banked")  # stored, or growing in a living collection: safe


STAGES = tuple(Stage)

# A population of one of these care classes is held by one group alone.
ONE_GROUP_PER_POPULATION = frozenset({CareClass.RARE, CareClass.CRITICAL, CareClass.UNKNOWN})

# A curator says yes to each adoption of one of these, whatever the bank's usual way is.
CURATOR_ALWAYS = frozenset({CareClass.CRITICAL})


def may_become(state: AdoptionState, wanted: AdoptionState) -> bool:
    """Whether an adoption may move from one state to another."""
    return wanted in ADOPTION_MOVES[state]


def is_further(stage: Stage, than: Stage) -> bool:
    """Whether a stage comes later in the season."""
    return STAGES.index(stage) > STAGES.index(than)


@dataclass(frozen=True)
class Ask:
    """Everything that decides whether a group may adopt a species."""

    group_active: bool
    season_over: bool
    wanted: bool
    native: bool | None  # None: nobody has said, which the sheet will ask
    care: CareClass
    held_by_us: bool  # asked for before, and still asked for or held
    groups_with_it: int
    groups_per_species: int
    in_hand: int
    adoptions_per_group: int


GONE = say(
    "This species is thought to be gone from here. If you find it, take nothing and tell the bank at once."
)


def may_ask(ask: Ask) -> Words | None:
    """Why a group may not adopt a species, the gravest reason first; None when it may."""
    reasons = (
        (not ask.group_active, say("Your group is not active, so it cannot adopt a species.")),
        (ask.season_over, say("This season is over.")),
        (ask.held_by_us, say("Your group has this species already, or has asked for it.")),
        (not ask.wanted, say("This species is not on this season’s wanted list.")),
        (ask.care is CareClass.GONE, GONE),
        (ask.native is False, say("This species is not native here, so its seed is not collected.")),
        (ask.groups_with_it >= ask.groups_per_species, species_taken(ask.groups_per_species)),
        (ask.in_hand >= ask.adoptions_per_group, hands_full(ask.adoptions_per_group)),
    )
    return next((words for holds, words in reasons if holds), None)


def species_taken(most: int) -> Words:
    return say_n(
        "Only {n} group may have a species here, and one has this one already. Please choose another.",
        "Only {n} groups may have a species here, and as many have this one already. Please choose another.",
        n=most,
    )


def hands_full(most: int) -> Words:
    return say("The bank lets a group have {n} species at a time, and yours has as many.", n=most)


def waits_for_curator(mode: AdoptionMode, care: CareClass) -> bool:
    """Whether somebody at the bank must say yes first."""
    return mode is AdoptionMode.CURATOR or care in CURATOR_ALWAYS


def lapses(
    *,
    today: date,
    lapses_on: date,
    state: AdoptionState,
    stage: Stage,
    since: date,
    last_done: date | None,
) -> bool:
    """Whether an adoption falls back to the list: the day has come, nothing was done ``since`` it was asked.

    ``last_done`` is the day on which the group last asked an owner, or its plants were last counted. Where
    the owner has said yes a group may be waiting for ripe fruit, so nothing past *adopted* lapses.
    """
    idle = last_done is None or last_done < since
    return state is AdoptionState.ACTIVE and stage is Stage.ADOPTED and idle and today >= lapses_on


def holding_key(group_id: UUID, season_id: UUID, taxon_id: UUID) -> str:
    """What is unique while a group holds a species in a season."""
    return sha256(f"{group_id} {season_id} {taxon_id}".encode()).hexdigest()


def sole_key(care: CareClass, season_id: UUID, population_id: UUID) -> str | None:
    """What is unique while one group alone may hold a population; None where several may."""
    return f"{season_id}:{population_id}" if care in ONE_GROUP_PER_POPULATION else None
