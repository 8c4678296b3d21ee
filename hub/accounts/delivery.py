"""The post round: letters that are due leave, each taken by one postman at a time, tried again when it fails.

A letter is leased before it is carried, by moving its next try into the future in one conditional update.
So any number of processes may do the round at once, and a letter whose postman died is taken up by another.
"""

from __future__ import annotations

import logging
from datetime import datetime, timedelta
from typing import cast
from uuid import UUID

from sqlalchemy import CursorResult, select, update

from hub.accounts.carriers import Carrier, Undeliverable, carrier
from hub.accounts.models import Letter, LetterState
from hub.db.work import House, Work
from hub.rights.scope import Scope

LEASE = timedelta(minutes=5)
MOST_TRIES = 12  # with the waits below, a little over a day
FIRST_WAIT = timedelta(minutes=1)
LONGEST_WAIT = timedelta(hours=4)
ROUND = 50  # letters

log = logging.getLogger("hub.post")
POST = Scope.everyone(because="delivering letters")


def deliver_due(house: House, *, now: datetime | None = None) -> int:
    """Carry every letter that is due, and return how many left."""
    now = now or house.now()
    by = carrier(house.settings)
    return sum(deliver(house, by, letter_id, now) for letter_id in due(house, now))


def due(house: House, now: datetime) -> list[UUID]:
    waiting = (Letter.state == LetterState.WAITING, Letter.due_at <= now)
    with house.work(POST, now=now, reads_only=True) as work:
        return list(work.db.scalars(select(Letter.id).where(*waiting).order_by(Letter.due_at).limit(ROUND)))


def deliver(house: House, by: Carrier, letter_id: UUID, now: datetime) -> bool:
    """Lease one letter, carry it, note what came of it. False when another postman has it, or it failed."""
    letter = leased(house, letter_id, now)
    if letter is None:
        return False
    state, trouble = LetterState.SENT, ""
    try:
        by.carry(letter)
    except Undeliverable as refusal:
        state, trouble = LetterState.FAILED, str(refusal)
    except OSError as failure:
        state = LetterState.FAILED if letter.tries >= MOST_TRIES else LetterState.WAITING
        trouble = str(failure)
    except Exception as fault:  # a letter that cannot even be written must not hold up all the others
        log.exception("Letter %s cannot be carried", letter.id)
        state, trouble = LetterState.FAILED, repr(fault)
    with house.work(POST, now=now) as work:
        note(work, letter, state, trouble)
        work.db.commit()
    return state is LetterState.SENT


def leased(house: House, letter_id: UUID, now: datetime) -> Letter | None:
    """Take a letter for the length of a lease, unless somebody else just did."""
    with house.work(POST, now=now) as work:
        still_due = (
            Letter.id == letter_id,
            Letter.state == LetterState.WAITING,
            Letter.due_at <= now,
        )
        lease = update(Letter).where(*still_due).values(due_at=now + LEASE, tries=Letter.tries + 1)
        taken = cast(CursorResult[object], work.db.execute(lease)).rowcount
        letter = work.db.get(Letter, letter_id, populate_existing=True) if taken else None
        work.db.commit()
        return letter


def note(work: Work, letter: Letter, state: LetterState, trouble: str) -> None:
    """Keep what came of a try. A letter that left keeps no body: its links are secrets."""
    kept = work.db.get_one(Letter, letter.id)
    kept.state, kept.trouble = state, trouble[:1000]
    if state is LetterState.WAITING:
        kept.due_at = work.now + wait_after(letter.tries)
    else:
        kept.body = ""


def wait_after(tries: int) -> timedelta:
    """How long to wait after so many tries: twice as long each time."""
    return min(FIRST_WAIT * 2 ** (tries - 1), LONGEST_WAIT)
