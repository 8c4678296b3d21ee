"""What roles, kinds and states are called on screen."""

from __future__ import annotations

from hub.groups.rules import AdoptionMode, AgeBand, GroupKind, GroupState
from hub.rights.scope import Role
from hub.words import Words, say

ROLES: dict[Role, Words] = {
    Role.LEAD: say("group lead"),
    Role.MEMBER: say("member"),
    Role.CURATOR: say("curator"),
    Role.TECHNICIAN: say("technician"),
    Role.COORDINATOR: say("coordinator"),
    Role.STEWARD: say("steward"),
}
KINDS: dict[GroupKind, Words] = {GroupKind.CLUB: say("club"), GroupKind.SCHOOL: say("school")}
STATES: dict[GroupState, Words] = {
    GroupState.ASKED: say("asks to join"),
    GroupState.ACTIVE: say("active"),
    GroupState.DECLINED: say("declined"),
    GroupState.CLOSED: say("closed"),
}
MODES: dict[AdoptionMode, Words] = {
    AdoptionMode.CURATOR: say("a curator says yes to each adoption"),
    AdoptionMode.AUTOMATIC: say("an adoption within the limits counts at once"),
}

BANDS: dict[AgeBand, Words] = {
    AgeBand.UNDER_8: say("under 8 years"),
    AgeBand.FROM_8: say("8 to 11 years"),
    AgeBand.FROM_11: say("11 to 14 years"),
    AgeBand.FROM_14: say("14 to 18 years"),
    AgeBand.MIXED: say("mixed ages"),
}


def seat_words(role: Role, where: str | None) -> Words:
    """A seat as people say it: ``group lead, Fell Group``."""
    return say("{role}, {where}", role=ROLES[role], where=where) if where else ROLES[role]
