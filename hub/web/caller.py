"""Who stands behind the present request: a scope, and what the page header shows of the person."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from flask import current_app, g

from hub.db.work import House
from hub.rights.scope import Scope

HOUSE = "funicle-house"
WHO = "funicle-who"


@dataclass(frozen=True)
class Caller:
    """One signed-in person in one seat, or a visitor."""

    scope: Scope
    name: str = ""
    seat_label: str = ""
    zone: str = "UTC"
    other_seats: tuple[tuple[str, str], ...] = field(default=())  # (seat id, label) to change to
    waits: bool = False  # a seat of theirs opens only once a second factor is set up


VISITOR = Caller(Scope.nobody())
Who = Callable[[], Caller]


def house() -> House:
    """The running hub: settings, engine, files."""
    found: House = current_app.extensions[HOUSE]
    return found


def caller() -> Caller:
    """Who is asking, worked out once a request by the resolver that the wiring put in."""
    if "caller" not in g:
        who: Who = current_app.extensions[WHO]
        g.caller = who()
    found: Caller = g.caller
    return found
