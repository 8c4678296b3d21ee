"""Care for how somebody else signs in, on the day that their laptop or their phone is lost."""

from __future__ import annotations

from uuid import UUID

from hub.accounts import factors
from hub.accounts.actions import end_sessions_of
from hub.accounts.models import Person
from hub.db.work import Work
from hub.groups import queries
from hub.groups.models import Seat
from hub.rights.scope import Role
from hub.words import NotFound


def get_in_care(work: Work, seat_id: UUID) -> tuple[Seat, Person]:
    """A seat and its holder whom the asker may help: the steward anybody, a curator the bank's own people.

    Somebody who also works elsewhere is the steward's alone: no bank decides over another's. The work must
    see all seats. Raises NotFound.
    """
    held = queries.get_seat(work, seat_id)
    elsewhere = [seat for seat in queries.seats_of(work, held.person_id) if not in_own_bank(work, seat)]
    if elsewhere and work.scope.role is not Role.STEWARD:
        raise NotFound(seat_id)
    return held, work.db.get_one(Person, held.person_id)


def in_own_bank(work: Work, seat: Seat) -> bool:
    return seat.bank_id == work.scope.own_bank_id is not None


def end_sessions(work: Work, *, seat_id: UUID) -> None:
    """End every session of somebody in the asker's care. Raises NotFound."""
    held, _ = get_in_care(work, seat_id)
    end_sessions_of(work, person_id=held.person_id)


def take_off_second_step(work: Work, *, seat_id: UUID, reason: str) -> None:
    """Take off the second step of somebody in the asker's care. Raises NotFound, Refused."""
    held, _ = get_in_care(work, seat_id)
    factors.reset(work, person_id=held.person_id, reason=reason)
