"""Failures in a row: waits that grow, an end to guessing, and a way back in that a stranger cannot close.

They are counted under what was typed, whether or not there is such an account, so the answers tell nobody. A
browser that its owner signed in from before does not wait for what strangers tried elsewhere. When there were
too many, the password opens nothing more until its owner chooses another by mail.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime
from uuid import UUID

from hub.accounts.actions import SignInRefused, note_refusal
from hub.accounts.codes import is_recovery_code
from hub.accounts.rules import CODE_TRIES, MOST_FAILURES, wait_after
from hub.db import limits
from hub.db.work import Work
from hub.web.caller import house
from hub.web.limits import too_often
from hub.words import Refused, Words, say

TOO_MANY_CODES = say(
    "There were too many wrong codes, so your phone’s codes count no more. Use one of your recovery codes, "
    "or ask whoever runs your bank or hub to take off your second step."
)


def hold(work: Work, name: str, who: str, *, known: bool = False, too_many: Words) -> None:
    """Count one try. Raises TooManyRequests while there is a wait, and Refused when there is no more trying.

    It must come before the first query of the page, as every count.
    """

    def opens_at(failures: int, last_at: datetime) -> datetime:
        return last_at if known else last_at + wait_after(failures)

    key = limits.key_of(work.settings, name, who)
    failures, opens = limits.try_once_more(house().engine, key, now=work.now, opens_at=opens_at)
    if failures >= MOST_FAILURES:
        raise Refused(too_many)
    if opens > work.now:
        raise too_often(work.now, opens)


def hold_code(work: Work, person_id: UUID | None, typed: str) -> None:
    """The same for a phone’s code. A recovery code is too long to guess, and must open when phones do not."""
    if typed and not is_recovery_code(typed):
        hold(work, CODE_TRIES, str(person_id), too_many=TOO_MANY_CODES)


@contextmanager
def refusals_noted(work: Work) -> Iterator[None]:
    """A refused sign-in leaves its trace, though the page’s own work is undone."""
    try:
        yield
    except SignInRefused as refusal:
        work.db.rollback()
        with house().work(work.scope) as apart:
            note_refusal(apart, person_id=refusal.person_id)
            apart.db.commit()
        raise
