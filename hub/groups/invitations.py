"""Invitations: a mailed link to take a seat. Short-lived, used once, withdrawn at will."""

from __future__ import annotations

from collections.abc import Iterable
from uuid import UUID

from hub.accounts import actions as accounts
from hub.accounts import secrets
from hub.accounts.letters import address, post
from hub.accounts.models import Person
from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.work import Work
from hub.groups import queries
from hub.groups.models import Bank, Group, Invitation, Region, Seat
from hub.groups.role_words import seat_words
from hub.groups.rules import INVITATION_LASTS, GroupState, may_invite
from hub.groups.seats import seat_invited
from hub.rights.scope import Role
from hub.words import NotFound, Refused, say

MOST_OPEN = 100
NOT_YOURS = say("Your seat does not invite people into that role.")
FULL = say("{n} invitations wait already. Withdraw some, or wait until they are taken.", n=MOST_OPEN)


def invite_to_group(work: Work, *, email: str, role: Role) -> Invitation:
    """A lead invites somebody into their own group. Raises Refused."""
    group = queries.my_group(work)
    check_invited(work, role, waiting=len(queries.open_invitations(work, group_id=group.id)))
    return invite_into_group(work, group=group, email=email, role=role)


def invite_into_group(work: Work, *, group: Group, email: str, role: Role) -> Invitation:
    """Write the invitation and its letter. Whoever calls has checked who may."""
    place = {"group_id": group.id, "bank_id": group.bank_id, "region_id": group.region_id}
    return send(work, email=email, role=role, where=group.name, place=place)


def invite_lead(work: Work, *, group_id: UUID, email: str) -> Invitation:
    """A curator invites a lead into a group that is at work, say because the first link ran out."""
    group = queries.get_group(work, group_id)
    if group.state is not GroupState.ACTIVE:
        raise Refused(say("Take the group in first."))
    check_waiting(len(queries.open_invitations(work, group_id=group.id)))
    return invite_into_group(work, group=group, email=email, role=Role.LEAD)


def invite_to_bank(work: Work, *, email: str, role: Role) -> Invitation:
    """A curator invites staff into their own bank. Raises Refused."""
    bank = queries.my_bank(work)
    check_invited(work, role, waiting=len(queries.open_invitations(work, bank_id=bank.id)))
    return send(work, email=email, role=role, where=bank.name, place={"bank_id": bank.id})


def invite_to_hub(work: Work, *, email: str, role: Role, place: UUID | None = None) -> Invitation:
    """A steward invites a bank's curator, a region's coordinator, or another steward. Raises Refused."""
    check_invited(work, role, waiting=0)
    if role is Role.CURATOR:
        bank = work.db.get(Bank, place) if place else None
        if bank is None:
            raise Refused(say("Please choose the bank."), field="place")
        return send(work, email=email, role=role, where=bank.name, place={"bank_id": bank.id})
    if role is Role.COORDINATOR:
        region = work.db.get(Region, place) if place else None
        if region is None:
            raise Refused(say("Please choose the region."), field="place")
        return send(work, email=email, role=role, where=region.name, place={"region_id": region.id})
    return send(work, email=email, role=role, where=None, place={})


def check_invited(work: Work, role: Role, *, waiting: int) -> None:
    if not may_invite(work.scope.role, role):
        raise Refused(NOT_YOURS, field="role")
    check_waiting(waiting)


def check_waiting(waiting: int) -> None:
    if waiting >= MOST_OPEN:
        raise Refused(FULL)


def send(work: Work, *, email: str, role: Role, where: str | None, place: dict[str, UUID]) -> Invitation:
    """Store an invitation and post its letter. An earlier one for the same seat and address is replaced."""
    secret = secrets.fresh()
    invitation = Invitation(
        email=email.lower(),
        role=role,
        token_digest=secret.digest,
        sent_at=work.now,
        ends_at=work.now + INVITATION_LASTS,
        **place,
    )
    for earlier in queries.open_invitations(work, roles=[role]):
        alike = all(getattr(earlier, name) == getattr(invitation, name) for name in (*queries.PLACE, "email"))
        if alike:
            withdraw(work, invitation_id=earlier.id)
    work.db.add(invitation)
    work.db.flush()  # its id is about to be named in the audit chain
    record(work, Event.INVITED, invitation, after={"role": str(role)})
    post_invitation(work, invitation, where, address(work, f"/invitations/{secret.token}"))
    return invitation


def post_invitation(work: Work, invitation: Invitation, where: str | None, link: str) -> None:
    seat = seat_words(invitation.role, where)
    post(
        work,
        to=invitation.email,
        subject=say("You are invited: {seat}", seat=seat),
        body=[
            say("Hello,"),
            say("You are invited to the seed hub, to be: {seat}.", seat=seat),
            say("Open this link to accept. You can sign in with an account you have, or make one:"),
            link,
            say("It works once, and for {n} days.", n=INVITATION_LASTS.days),
        ],
    )


def withdraw(work: Work, *, invitation_id: UUID) -> None:
    """Make an invitation of one's own group, bank or hub worthless. Raises NotFound."""
    invitation = queries.get_invitation(work, invitation_id)
    invitation.withdrawn_at = work.now
    record(work, Event.INVITATION_WITHDRAWN, invitation)


def accept(work: Work, *, token: str) -> Seat:
    """Take the invited seat with the account that is signed in. Raises NotFound for a dead link."""
    invitation = get_open(work, token)
    person = queries.there(work.db.get(Person, work.scope.person_id), "person")
    invitation.taken_at = work.now
    return seat_invited(work, person=person, invitation=invitation)


def accept_as_new(
    work: Work, *, token: str, name: str, password: str, own_words: Iterable[str] = ()
) -> Person:
    """Make an account for the invited address and seat it. Raises Refused, or NotFound for a dead link."""
    invitation = get_open(work, token)
    person = accounts.open_account(
        work, email=invitation.email, name=name, password=password, own_words=own_words
    )
    invitation.taken_at = work.now
    seat_invited(accounts.acting(work, person), person=person, invitation=invitation)
    return person


def get_open(work: Work, token: str) -> Invitation:
    invitation = queries.find_invitation(work, token)
    if invitation is None:
        raise NotFound("invitation")
    return invitation
