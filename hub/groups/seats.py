"""Seats: taken by invitation, changed, ended, and never so that a group or bank is left without anybody."""

from __future__ import annotations

from uuid import UUID

from sqlalchemy import select

from hub.accounts import actions as accounts
from hub.accounts.models import Person
from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.work import Work
from hub.groups import queries
from hub.groups.models import Bank, Group, Invitation, Seat
from hub.groups.role_words import ROLES
from hub.groups.rules import NEVER_EMPTY
from hub.rights.scope import GROUP_ROLES, Role
from hub.words import Refused, say


def seat(
    work: Work,
    *,
    person: Person,
    role: Role,
    group_id: UUID | None = None,
    bank_id: UUID | None = None,
    region_id: UUID | None = None,
) -> Seat:
    """Seat a person: their old seat of the same kind is taken up again, another one in the group ends."""
    place = {"group_id": group_id, "bank_id": bank_id, "region_id": region_id}
    for other in queries.seats_of(work, person.id):
        if group_id is not None and other.group_id == group_id and other.role is not role:
            other.ended_at = work.now
    here = [queries.same(getattr(Seat, name), value) for name, value in place.items()]
    taken = work.db.scalars(
        select(Seat).where(Seat.person_id == person.id, Seat.role == role, *here).order_by(Seat.since)
    ).first()
    if taken is None:
        taken = Seat(person_id=person.id, role=role, since=work.now, **place)
        work.db.add(taken)
    elif taken.ended_at is not None:
        taken.since, taken.ended_at = work.now, None
    work.db.flush()  # its id is about to be named in the audit chain
    record(work, Event.SEAT_TAKEN, taken, after={"person": str(person.id), "role": str(role)})
    return taken


def seat_invited(work: Work, *, person: Person, invitation: Invitation) -> Seat:
    """Seat a person where the invitation says."""
    return seat(
        work,
        person=person,
        role=invitation.role,
        group_id=invitation.group_id,
        bank_id=invitation.bank_id,
        region_id=invitation.region_id,
    )


def change_role(work: Work, *, seat_id: UUID, role: Role) -> Seat:
    """Make a member a lead of the asker's group, or a lead a member. Raises Refused for the last lead."""
    group = queries.my_group(work, locked=True)
    held, person = queries.get_near(work, seat_id)
    if role not in GROUP_ROLES:
        raise Refused(say("Only lead and member are roles of a group."))
    if held.role is role:
        return held
    end(work, held, reason=str(say("The role changed.")))
    return seat(
        work,
        person=person,
        role=role,
        group_id=group.id,
        bank_id=group.bank_id,
        region_id=group.region_id,
    )


def end_seat(work: Work, *, seat_id: UUID) -> None:
    """Take a seat from somebody of the asker's group or bank, or of the whole hub for a steward."""
    held, _ = queries.get_near(work, seat_id)
    lock_place(work, held)
    end(work, held)


def leave(work: Work) -> None:
    """Give up the asker's own seat in their group. Raises Refused for the last lead."""
    group = queries.my_group(work, locked=True)
    for held in queries.seats_of(work, work.scope.person_id):
        if held.group_id == group.id:
            end(work, held)


def leave_the_hub(work: Work, *, password: str) -> None:
    """Close the asker's account: every seat ends first. Raises Refused where others would be left alone."""
    for held in queries.seats_of(work, work.scope.person_id):
        lock_place(work, held)
        end(work, held)
    accounts.close_account(work, password=password)


def end(work: Work, held: Seat, reason: str = "") -> None:
    """End a seat. Raises Refused where nobody else could do its work."""
    if held.role in NEVER_EMPTY and not queries.others_beside(work, held):
        raise Refused(
            say(
                "The only {role} cannot go before there is another: invite somebody first.",
                role=ROLES[held.role],
            )
        )
    held.ended_at = work.now
    record(work, Event.SEAT_ENDED, held, after={"person": str(held.person_id)}, reason=reason)


def lock_place(work: Work, held: Seat) -> None:
    """Two people leaving at one moment must not both count on the other to stay."""
    for kind, key in ((Group, held.group_id), (Bank, held.bank_id)):
        if key is not None:
            work.db.execute(select(kind.id).where(kind.id == key).with_for_update())
            return
