"""The owner's permission as a path: what is done, what comes next, and what waits for it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from hub.sites.models import Permission
from hub.sites.rules import PermissionState
from hub.words import Words, say

NEARLY_OVER_DAYS = 30
OVER = frozenset({PermissionState.REFUSED, PermissionState.EXPIRED, PermissionState.WITHDRAWN})


@dataclass(frozen=True)
class Step:
    """One bud of the path. ``does`` names what the page offers there: ask, answer or renew."""

    title: Words
    state: str
    about: Words | str = ""
    day: Words | None = None
    does: str = ""


def newest_first(permissions: Sequence[Permission]) -> Permission | None:
    return permissions[0] if permissions else None


def path_of(permission: Permission | None, today: date) -> list[Step]:
    """Ask, hear, collect: the three steps as they stand with the newest permission."""
    state = permission.state if permission else PermissionState.TO_ASK
    if permission is None or state is PermissionState.TO_ASK:
        return [
            Step(
                say("Ask the owner"), "next", say("Take or send the letter, then note the day."), does="ask"
            ),
            Step(say("The owner’s answer"), "later"),
            Step(say("Collecting allowed"), "later"),
        ]
    asked = Step(say("Ask the owner"), "done", day=on(permission.asked_on))
    if state is PermissionState.ASKED:
        waiting = say("Note what the owner said, and keep the signed letter here.")
        answer = Step(say("The owner’s answer"), "next", waiting, does="answer")
        return [asked, answer, Step(say("Collecting allowed"), "later")]
    if state in OVER:
        return [asked, answered(permission), asking_again(permission)]
    return [asked, answered(permission), holding(permission, today)]


def on(day: date | None) -> Words | None:
    return say("on {day}", day=day) if day else None


def answered(permission: Permission) -> Step:
    words = {
        PermissionState.REFUSED: say("The owner said no."),
        PermissionState.WITHDRAWN: say("The owner said yes, then took it back."),
    }
    about = words.get(permission.state, say("The owner said yes."))
    return Step(say("The owner’s answer"), "done", about, on(permission.answered_on))


def asking_again(permission: Permission) -> Step:
    """Nobody may collect now; the path begins again with a new letter."""
    words = {
        PermissionState.REFUSED: say(
            "Nobody may collect here. You may ask again, in another year or for less."
        ),
        PermissionState.EXPIRED: say("The permission ended on {day}. Ask again.", day=permission.ends_on),
        PermissionState.WITHDRAWN: say("It holds no more since {day}.", day=permission.withdrawn_on),
    }
    return Step(say("Ask again"), "next", words[permission.state], does="ask")


def holding(permission: Permission, today: date) -> Step:
    title, ends = say("Collecting allowed"), permission.ends_on
    if permission.starts_on and today < permission.starts_on:
        return Step(title, "later", say("From {day} on.", day=permission.starts_on))
    if ends and ends < today:
        return Step(title, "next", say("The permission ended on {day}. Ask again.", day=ends), does="ask")
    if ends and (ends - today).days <= NEARLY_OVER_DAYS:
        return Step(title, "next", say("It ends soon, on {day}. Ask again in time.", day=ends), does="ask")
    return Step(title, "done", say("Until {day}.", day=ends))
