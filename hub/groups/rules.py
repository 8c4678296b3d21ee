"""States of a group, who may invite whom, and what a crew may be called."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Container
from datetime import timedelta
from enum import StrEnum
from itertools import count

from hub.rights.scope import BANK_ROLES, GROUP_ROLES, Role
from hub.words import Words, say

INVITATION_LASTS = timedelta(days=7)
LARGEST_CREW = 60  # pupils; a class with its helpers


class AdoptionMode(StrEnum):
    """Who says yes to an adoption."""

    CURATOR = "curator"
    AUTOMATIC = "automatic"


class GroupKind(StrEnum):
    """What sort of group it is."""

    CLUB = "club"
    SCHOOL = "school"


class GroupState(StrEnum):
    """A group asks to join; the bank says yes or no."""

    ASKED = "asked"
    ACTIVE = "active"
    DECLINED = "declined"
    CLOSED = "closed"


GROUP_MOVES: dict[GroupState, frozenset[GroupState]] = {
    GroupState.ASKED: frozenset({GroupState.ACTIVE, GroupState.DECLINED}),
    GroupState.ACTIVE: frozenset({GroupState.CLOSED}),
    GroupState.DECLINED: frozenset({GroupState.ACTIVE}),
    GroupState.CLOSED: frozenset({GroupState.ACTIVE}),
}

MAY_INVITE: dict[Role, frozenset[Role]] = {
    Role.LEAD: GROUP_ROLES,
    Role.CURATOR: BANK_ROLES,
    Role.STEWARD: frozenset({Role.CURATOR, Role.COORDINATOR, Role.STEWARD}),
}

# Whoever holds one of these roles alone cannot leave before somebody else holds it too.
NEVER_EMPTY = frozenset({Role.LEAD, Role.CURATOR, Role.STEWARD})


class AgeBand(StrEnum):
    """How old the pupils of a crew are: a band, never a birthday."""

    UNDER_8 = "under 8"
    FROM_8 = "8 to 11"
    FROM_11 = "11 to 14"
    FROM_14 = "14 to 18"
    MIXED = "mixed"


def may_become(state: GroupState, wanted: GroupState) -> bool:
    """Whether a group may move from one state to another."""
    return wanted in GROUP_MOVES[state]


def may_invite(role: Role | None, wanted: Role) -> bool:
    """Whether somebody in this role may invite somebody into that one."""
    return role is not None and wanted in MAY_INVITE.get(role, ())


# Words that no person is called, so that two words with one of them are not a person's full name.
TEAM_WORDS = frozenset(
    {"and", "class", "club", "crew", "family", "form", "friends", "gang", "group", "house", "of",
     "our", "patrol", "room", "squad", "table", "team", "the", "troop", "unit", "with", "year"}
)  # fmt: skip
TITLES = frozenset({"dr", "madam", "miss", "mr", "mrs", "ms", "mx", "prof", "sir"})
LIKE_A_NAME = say(
    "This could be taken for a person’s full name. Pupils stay unnamed here: choose something made up, "
    "such as “The Teasels” or “Crew 3”."
)
LIKE_AN_ADDRESS = say(
    "This looks like an e-mail address or a telephone number. Pupils cannot be reached through the hub: "
    "choose a made-up name."
)


def nickname_trouble(nickname: str) -> Words | None:
    """Why a crew cannot be called so, or None. Errs towards refusing: a made-up name is easily changed."""
    if "@" in nickname or len(re.findall(r"\d", nickname)) > 4 or re.search(r"https?:|www\.", nickname, re.I):
        return LIKE_AN_ADDRESS
    words = [word.strip(".,’'").casefold() for word in nickname.split()]
    if words and words[0] in TITLES:
        return LIKE_A_NAME
    spelt = all(re.fullmatch(r"[^\W\d_]+([-’'.][^\W\d_]+)*", word) for word in words)
    return LIKE_A_NAME if len(words) in (2, 3) and spelt and not TEAM_WORDS & set(words) else None


def code_from(name: str, taken: Container[str]) -> str:
    """A short code for a group, from its name: the first letters of its words, made unique with a number."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().upper()
    words = re.findall(r"[A-Z]+", plain)
    start = "".join(word[0] for word in words) if len(words) > 2 else "".join(word[:2] for word in words)
    start = (start or "GROUP")[:6]
    return next(code for n in count(1) if (code := start if n == 1 else f"{start}{n}") not in taken)
