"""Groups ask to join and are answered; groups and banks say how they want things."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from sqlalchemy import select

from hub.accounts.letters import address, post
from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.work import Work
from hub.groups import queries
from hub.groups.invitations import invite_into_group, withdraw
from hub.groups.models import Bank, District, Group
from hub.groups.role_words import STATES
from hub.groups.rules import GroupKind, GroupState, code_from, may_become
from hub.rights.scope import Role
from hub.words import Refused, say


def ask_to_join(
    work: Work,
    *,
    name: str,
    kind: GroupKind,
    district: UUID,
    bank: UUID,
    contact_name: str,
    contact_email: str,
    about: str = "",
) -> Group:
    """A club or school asks a bank to take it in. Raises Refused beside the field that does not fit."""
    where, asked = place_asked(work, district, bank)
    if work.db.scalars(select(Group.id).where(Group.name == name)).first():
        raise Refused(say("A group of this name is known here already. Add your place to it."), field="name")
    group = Group(
        bank_id=asked.id,
        region_id=where.region_id,
        district_id=where.id,
        kind=kind,
        name=name,
        code=code_from(name, set(work.db.scalars(select(Group.code)))),
        about=about,
        asked_at=work.now,
        contact_name=contact_name,
        contact_email=contact_email.lower(),
        state=GroupState.ASKED,
    )
    work.db.add(group)
    work.db.flush()  # its id is about to be named in the audit chain
    record(work, Event.GROUP_ASKED, group, after={"name": name, "kind": str(kind)})
    tell_bank(work, group, asked)
    return group


def place_asked(work: Work, district: UUID, bank: UUID) -> tuple[District, Bank]:
    """The district and the bank that a group chose. Raises Refused where they do not belong together."""
    where, asked = work.db.get(District, district), work.db.get(Bank, bank)
    if where is None:
        raise Refused(say("Please choose one of the districts."), field="district")
    if asked is None or asked.region_id != where.region_id:
        raise Refused(say("This bank does not serve that district."), field="bank")
    return where, asked


def tell_bank(work: Work, group: Group, bank: Bank) -> None:
    post(
        work,
        to=bank.email,
        subject=say("{name} asks to join", name=group.name),
        body=[
            say("A group asks to collect for {bank}: {name}.", bank=bank.name, name=group.name),
            say("Look at what it says of itself, and answer:"),
            address(work, f"/groups/{group.id}"),
        ],
    )


def approve(work: Work, *, group_id: UUID) -> Group:
    """Take a group in, or in again, and invite its contact as its lead. Raises Refused."""
    group = move(work, group_id, GroupState.ACTIVE)
    if not queries.seats(work, group_id=group.id, roles=[Role.LEAD]):
        invite_into_group(work, group=group, email=group.contact_email, role=Role.LEAD)
    return group


def decline(work: Work, *, group_id: UUID, reason: str) -> Group:
    """Say no to a group, with a reason that it is told. Raises Refused."""
    group = move(work, group_id, GroupState.DECLINED, reason)
    post(
        work,
        to=group.contact_email,
        subject=say("About {name} joining", name=group.name),
        body=[
            say("Hello {name},", name=group.contact_name),
            say("Thank you for asking to collect seed. The bank cannot take {name} in now.", name=group.name),
            say("It gives this reason: {reason}", reason=reason),
        ],
    )
    return group


def close(work: Work, *, group_id: UUID, reason: str) -> Group:
    """Close a group: its people lose their seats, its work stays. Raises Refused."""
    group = move(work, group_id, GroupState.CLOSED, reason)
    for held, _ in queries.seats(work, group_id=group.id):
        held.ended_at = work.now
        record(work, Event.SEAT_ENDED, held, reason=reason)
    for invitation in queries.open_invitations(work, group_id=group.id):
        withdraw(work, invitation_id=invitation.id)
    return group


def move(work: Work, group_id: UUID, wanted: GroupState, reason: str = "") -> Group:
    """Bring a group from one state into another and record it. Raises Refused for a move there is not."""
    group = queries.get_group(work, group_id, locked=True)
    if not may_become(group.state, wanted):
        words = say("This group is “{state}” now, so this cannot be done.", state=STATES[group.state])
        raise Refused(words)
    before, group.state = group.state, wanted
    record(
        work,
        Event.GROUP_MOVED,
        group,
        before={"state": str(before)},
        after={"state": str(wanted)},
        reason=reason,
    )
    return group


def describe_group(work: Work, *, about: str, contact_name: str, contact_email: str) -> Group:
    """What a lead says of their own group."""
    group = queries.my_group(work)
    change(
        work, Event.GROUP_MOVED, group, about=about, contact_name=contact_name, contact_email=contact_email
    )
    return group


def settle_bank(work: Work, **settings: Any) -> Bank:
    """Set the ways of the asker's own bank: who says yes, how many, home freezing, the note on local law."""
    bank = queries.my_bank(work, locked=True)
    change(work, Event.BANK_CHANGED, bank, **settings)
    return bank


def change(work: Work, event: Event, thing: Any, **values: Any) -> None:
    """Set what differs, and record it; nothing is recorded where nothing differs."""
    before = {name: getattr(thing, name) for name, value in values.items() if getattr(thing, name) != value}
    for name in before:
        setattr(thing, name, values[name])
    if before:
        record(work, event, thing, before=before, after={name: values[name] for name in before})
