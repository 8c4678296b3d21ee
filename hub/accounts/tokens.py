"""Keys for programs: each acts for one person in one seat, is shown once, and ends by itself."""

from __future__ import annotations

from datetime import timedelta
from uuid import UUID

from hub.accounts import queries, secrets
from hub.accounts.factors import show_again
from hub.accounts.models import ApiToken
from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.work import Work
from hub.words import Refused, say

MOST_TOKENS = 20


def make_token(
    work: Work, *, seat_id: UUID | None, name: str, days: int, sign_in_id: UUID | None = None, code: str = ""
) -> str:
    """Make a key for the seat in use and return it, the only time it can be seen. Raises Refused.

    A key outlives the session and needs no codes, so whoever has a second factor shows it first.
    """
    show_again(work, sign_in_id=sign_in_id, code=code)
    if seat_id is None:
        raise Refused(say("A key works in a seat, and you have none."))
    if len(queries.my_tokens(work)) >= MOST_TOKENS:
        raise Refused(say("You have {n} keys already. End one that you no longer use.", n=MOST_TOKENS))
    person = queries.get_person(work)
    secret = secrets.fresh()
    key = ApiToken(
        person_id=person.id,
        seat_id=seat_id,
        name=name,
        token_digest=secret.digest,
        created_at=work.now,
        ends_at=work.now + timedelta(days=days),
    )
    work.db.add(key)
    work.db.flush()  # its id is about to be named in the audit chain
    record(work, Event.TOKEN_MADE, key, after={"name": name, "days": days})
    return secret.token


def end_token(work: Work, *, token_id: UUID) -> None:
    """End one of the asker's keys at once. Raises NotFound."""
    key = queries.get_my_token(work, token_id)
    key.ended_at = work.now
    record(work, Event.TOKEN_ENDED, key, after={"name": key.name})
