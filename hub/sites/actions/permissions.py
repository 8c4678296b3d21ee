"""The owner's permission on its way: asked, granted or refused, withdrawn, run out."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any
from uuid import UUID
from zoneinfo import ZoneInfo

from sqlalchemy import select

from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.work import Work
from hub.groups.models import Bank
from hub.sites import queries
from hub.sites.models import Permission
from hub.sites.rules import PERMISSION_MOVES, PermissionState, may_become
from hub.words import Refused, say


def ask_permission(work: Work, *, site_id: UUID, on: date) -> Permission:
    """Note that the owner was asked on this day. Raises Refused while an answer is still awaited.

    After an answer, of whatever kind, asking begins a new permission, so that the old one stays as it was.
    """
    site = queries.get_site(work, site_id, locked=True)
    check_past(work, on, "on")
    permission = queries.newest_permission(work, site.id)
    if permission is None or not PERMISSION_MOVES[permission.state] - AFTER_GRANT:
        permission = Permission(
            bank_id=site.bank_id, site_id=site.id, state=PermissionState.TO_ASK, noted_at=work.now
        )
        work.db.add(permission)
        work.db.flush()
    permission.asked_on, permission.asked_by_group_id = on, work.scope.own_group_id
    return move(work, permission, PermissionState.ASKED)


AFTER_GRANT = frozenset({PermissionState.EXPIRED, PermissionState.WITHDRAWN})


def grant_permission(
    work: Work,
    *,
    permission_id: UUID,
    answered_on: date,
    starts_on: date,
    ends_on: date,
    conditions: str = "",
    signed_file: str = "",
) -> Permission:
    """The owner said yes, from one day to another (both included). ``signed_file`` is a key of the store."""
    permission = queries.get_permission(work, permission_id, locked=True)
    check_past(work, answered_on, "answered_on")
    check_answer(permission, answered_on)
    if ends_on < starts_on:
        raise Refused(say("The last day comes before the first."), field="ends_on")
    permission.answered_on, permission.conditions = answered_on, conditions
    permission.starts_on, permission.ends_on = starts_on, ends_on
    permission.signed_file = signed_file
    return move(work, permission, PermissionState.GRANTED)


def keep_signed_file(work: Work, *, permission_id: UUID, signed_file: str) -> Permission:
    """Keep the signed letter of a permission that was granted without one at hand, or a better copy."""
    permission = queries.get_permission(work, permission_id, locked=True)
    if permission.state is not PermissionState.GRANTED:
        raise Refused(say("Only a granted permission has a signed letter."), field="signed_file")
    before, permission.signed_file = permission.signed_file, signed_file
    return noted(work, permission, {"signed_file": before}, {"signed_file": signed_file})


def refuse_permission(work: Work, *, permission_id: UUID, answered_on: date, reason: str = "") -> Permission:
    """The owner said no."""
    permission = queries.get_permission(work, permission_id, locked=True)
    check_past(work, answered_on, "answered_on")
    check_answer(permission, answered_on)
    permission.answered_on = answered_on
    return move(work, permission, PermissionState.REFUSED, reason)


def withdraw_permission(
    work: Work, *, permission_id: UUID, reason: str, on: date | None = None
) -> Permission:
    """The owner took a given permission back; from that day, today unless told, it holds no more."""
    permission = queries.get_permission(work, permission_id, locked=True)
    check_past(work, on or work.today, "on")
    permission.withdrawn_on = on or work.today
    return move(work, permission, PermissionState.WITHDRAWN, reason)


def expire_due(work: Work) -> int:
    """Mark the granted permissions whose last day is over where their bank is; returns how many."""
    found = (
        select(Permission, Bank.zone)
        .join(Bank, Bank.id == Permission.bank_id)
        .where(
            Permission.state == PermissionState.GRANTED, Permission.ends_on <= work.now.date() + timedelta(1)
        )
    )
    due = [
        permission
        for permission, zone in work.db.execute(found).all()
        if permission.ends_on and permission.ends_on < work.now.astimezone(ZoneInfo(zone)).date()
    ]
    for permission in due:
        move(work, permission, PermissionState.EXPIRED)
    return len(due)


def move(work: Work, permission: Permission, wanted: PermissionState, reason: str = "") -> Permission:
    """Bring a permission into another state and record it. Raises Refused for a move there is not."""
    before = permission.state
    if not may_become(before, wanted):
        words = say(
            "The permission is “{state}” now, so it cannot become “{wanted}”.",
            state=before.words,
            wanted=wanted.words,
        )
        raise Refused(words)
    permission.state = wanted
    dates = {name: getattr(permission, name) for name in ("starts_on", "ends_on", "withdrawn_on")}
    after = {"state": str(wanted)} | {name: str(day) for name, day in dates.items() if day}
    return noted(work, permission, {"state": str(before)}, after, reason)


def noted(
    work: Work, permission: Permission, before: dict[str, Any], after: dict[str, Any], reason: str = ""
) -> Permission:
    record(work, Event.PERMISSION_MOVED, permission, before=before, after=after, reason=reason)
    return permission


def check_past(work: Work, day: date, field: str) -> None:
    if day > work.today:
        raise Refused(say("This day is still to come."), field=field)


def check_answer(permission: Permission, answered_on: date) -> None:
    if permission.asked_on and answered_on < permission.asked_on:
        words = say("The owner was asked on {day}; the answer cannot be older.", day=permission.asked_on)
        raise Refused(words, field="answered_on")
