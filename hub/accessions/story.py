"""What happened to an accession, told in words from its audit entries. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from hub.accessions.rules import AccessionState
from hub.audit.models import AuditEntry
from hub.audit.rules import Event
from hub.groups.role_words import ROLES
from hub.rights.scope import Role
from hub.words import Words, say

MOVES: dict[str, Words] = {
    AccessionState.STORED: say("Stored in the bank"),
    AccessionState.LIVING: say("Kept as a living collection"),
    AccessionState.EXHAUSTED: say("Exhausted"),
    AccessionState.DEACCESSIONED: say("Deaccessioned"),
}


@dataclass(frozen=True)
class Happening:
    """One line of the story. Outside the bank people are named by their role alone."""

    at: datetime
    what: Words
    who: Words | str
    reason: str


def story_of(entries: Iterable[AuditEntry], names: Mapping[Any, str]) -> list[Happening]:
    """The story, oldest first. ``names`` holds the people whom the reader may know by name."""
    return [Happening(entry.at, what_of(entry), who_of(entry, names), entry.reason) for entry in entries]


def what_of(entry: AuditEntry) -> Words:
    if entry.event == Event.ACCESSION_MADE:
        return say("Approved, and numbered {number}", number=entry.after["number"])
    if entry.event == Event.LOT_PLACED:
        place = ", ".join(filter(None, map(entry.after.get, ("container", "place")))) or "–"
        return say("Lot {lot} placed: {place}", lot=entry.after.get("lot", ""), place=place)
    return MOVES[entry.after["state"]]


def who_of(entry: AuditEntry, names: Mapping[Any, str]) -> Words | str:
    if entry.person_id in names:
        return names[entry.person_id]
    return ROLES[Role(entry.role)] if entry.role else say("the hub")
