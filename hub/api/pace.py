"""How many requests a key may make: each key by itself, and those without a key by where they come from.

What changes something counts for the seat as well, so that twenty keys of one seat are no faster than one.
"""

from __future__ import annotations

from hashlib import sha256

from flask import request

from hub.db.work import Work
from hub.web.caller import caller
from hub.web.guard import SAFE
from hub.web.limits import allow, minutes, sender

TIMES = 600
CHANGES = 120
WITHIN = minutes(1)


def hold(work: Work) -> None:
    """Count this request, and raise TooManyRequests for one too many. Comes before the first query."""
    allow(work, "api", whoever(), times=TIMES, within=WITHIN)
    if request.method not in SAFE:
        allow(work, "api changes", seat(), times=CHANGES, within=WITHIN)


def whoever() -> str:
    """The key, by its digest; a key that is none counts for its sender, so that nobody can try them all."""
    if caller().scope.person_id is None:
        return sender()
    _, _, token = request.headers.get("Authorization", "").partition(" ")
    return sha256(token.strip().encode("utf-8", "replace")).hexdigest()


def seat() -> str:
    """The seat that a request acts for, whichever of its keys it brings; a visitor's network."""
    scope = caller().scope
    return f"{scope.person_id} {scope.role} {scope.group_id or scope.bank_id}" if scope.role else sender()
