"""What happened to an adoption, entry by entry of the audit chain, in plain words."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from hub.adoptions.rules import AdoptionState, Stage
from hub.audit.models import AuditEntry
from hub.audit.rules import Event
from hub.groups.role_words import ROLES
from hub.rights.scope import Role
from hub.words import Words, say

MOVES: dict[tuple[str | None, str], Words] = {
    (None, AdoptionState.REQUESTED): say("Asked for"),
    (AdoptionState.REQUESTED, AdoptionState.ACTIVE): say("Adopted"),
    (AdoptionState.REQUESTED, AdoptionState.DECLINED): say("Declined"),
    (AdoptionState.ACTIVE, AdoptionState.FULFILLED): say("Fulfilled"),
    (AdoptionState.ACTIVE, AdoptionState.RELEASED): say("Given back to the list"),
    (AdoptionState.ACTIVE, AdoptionState.LAPSED): say("Lapsed"),
    (AdoptionState.ACTIVE, AdoptionState.SUSPENDED): say("Paused"),
    (AdoptionState.SUSPENDED, AdoptionState.ACTIVE): say("Goes on"),
}


@dataclass(frozen=True)
class Happening:
    """One line of the story. Of people it names the role alone: a group need not know the bank’s staff."""

    at: datetime
    what: Words
    who: Words
    reason: str


def story_of(entries: Iterable[AuditEntry]) -> list[Happening]:
    """The story, oldest first."""
    return [
        Happening(entry.at, what_of(entry), who_of(entry), entry.reason or entry.after.get("wish", ""))
        for entry in entries
    ]


def what_of(entry: AuditEntry) -> Words:
    if entry.event == Event.ADOPTION_MOVED:
        return MOVES[entry.before.get("state"), entry.after["state"]]
    if entry.event == Event.ADOPTION_ADVANCED:
        return say("Reached: {stage}", stage=Stage(entry.after["stage"]).words)
    if entry.event == Event.POPULATION_HELD:
        return say("Collects from {code}", code=entry.after["population"])
    return say("Let go of {code}", code=entry.before["population"])


def who_of(entry: AuditEntry) -> Words:
    return ROLES[Role(entry.role)] if entry.role else say("the hub")
