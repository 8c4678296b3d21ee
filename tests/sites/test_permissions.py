"""The owner's permission: every move there is and every one there is not, and the days on which it holds."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest

from hub.audit.listeners import _listeners, when
from hub.audit.queries import history_of
from hub.audit.rules import Event
from hub.db.work import Work
from hub.groups.models import Bank
from hub.sites import actions, queries
from hub.sites.models import Permission
from hub.sites.rules import PERMISSION_MOVES, PermissionState
from hub.words import NotFound, Refused
from tests.cast import Cast
from tests.sites.scene import TODAY, a_site, opened

FIRST, LAST = date(2031, 7, 1), date(2031, 9, 30)

ACTS: dict[PermissionState, Callable[[Work, Permission], Any]] = {
    PermissionState.ASKED: lambda work, it: actions.ask_permission(work, site_id=it.site_id, on=TODAY),
    PermissionState.GRANTED: lambda work, it: actions.grant_permission(
        work, permission_id=it.id, answered_on=TODAY, starts_on=FIRST, ends_on=LAST
    ),
    PermissionState.REFUSED: lambda work, it: actions.refuse_permission(
        work, permission_id=it.id, answered_on=TODAY
    ),
    PermissionState.WITHDRAWN: lambda work, it: actions.withdraw_permission(
        work, permission_id=it.id, reason="hay"
    ),
    PermissionState.EXPIRED: lambda work, it: actions.expire_due(work),
}


def in_state(cast: Cast, state: PermissionState) -> Permission:
    """A permission that stands so, whatever led there."""
    with cast.work("alice") as work:
        site = a_site(work, cast)
    with cast.everywhere() as work:
        permission = queries.newest_permission(work, site.id)
        assert permission is not None
        permission.state = state
        permission.asked_on = None if state is PermissionState.TO_ASK else date(2031, 6, 1)
        if state in (PermissionState.GRANTED, PermissionState.EXPIRED, PermissionState.WITHDRAWN):
            permission.starts_on, permission.ends_on = date(2031, 6, 10), date(2031, 7, 1)
    return permission


def state_of(cast: Cast, permission: Permission) -> PermissionState:
    with cast.everywhere() as work:
        return queries.get_permission(work, permission.id).state


@pytest.mark.parametrize("state", PermissionState)
def test_every_pair_of_states(cast: Cast, state: PermissionState) -> None:
    for wanted in ACTS:
        walk(cast, state, wanted)


def walk(cast: Cast, state: PermissionState, wanted: PermissionState) -> None:
    """Try one move: it happens where the table has it; else it is refused, or another permission begins."""
    permission = in_state(cast, state)
    try:
        with cast.work("alice") as work:
            ACTS[wanted](work, permission)
    except Refused:
        assert wanted not in PERMISSION_MOVES[state]
        assert state_of(cast, permission) is state
    else:
        allowed = wanted in PERMISSION_MOVES[state]
        assert state_of(cast, permission) is (wanted if allowed else state)
        assert allowed or wanted in (PermissionState.ASKED, PermissionState.EXPIRED)


@pytest.fixture
def granted(cast: Cast) -> Permission:
    site, _ = opened(cast)
    with cast.work("alice") as work:
        asked = actions.ask_permission(work, site_id=site.id, on=date(2031, 6, 1))
        return actions.grant_permission(
            work,
            permission_id=asked.id,
            answered_on=date(2031, 6, 20),
            starts_on=FIRST,
            ends_on=LAST,
            conditions="Ring first.",
        )


def holding_on(cast: Cast, permission: Permission, day: date) -> bool:
    with cast.work("alice") as work:
        return queries.permission_on(work, permission.site_id, day) is not None


def test_it_holds_from_its_first_day_to_its_last(cast: Cast, granted: Permission) -> None:
    for day, holds in (
        (FIRST, True),
        (LAST, True),
        (FIRST - timedelta(1), False),
        (LAST + timedelta(1), False),
    ):
        assert holding_on(cast, granted, day) is holds


def test_what_was_collected_before_a_withdrawal_stays_lawful(cast: Cast, granted: Permission) -> None:
    with cast.work("alice") as work:
        actions.withdraw_permission(work, permission_id=granted.id, reason="The hay is late.")
    assert holding_on(cast, granted, TODAY - timedelta(1))
    assert not holding_on(cast, granted, TODAY)


def test_it_runs_out_by_itself_and_keeps_its_days(cast: Cast, granted: Permission) -> None:
    after = datetime(2031, 10, 1, 0, 30, tzinfo=UTC)
    with cast.everywhere(now=after - timedelta(1)) as work:
        assert actions.expire_due(work) == 0, "its last day is not over"
    with cast.everywhere(now=after) as work:
        assert actions.expire_due(work) == 1
        assert actions.expire_due(work) == 0
    assert state_of(cast, granted) is PermissionState.EXPIRED
    assert holding_on(cast, granted, LAST)


def test_its_last_day_is_the_banks_own(cast: Cast, granted: Permission) -> None:
    with cast.everywhere() as work:
        bank = work.db.get(Bank, cast.fell_bank.id)
        assert bank is not None
        bank.zone = "America/Halifax"
    with cast.everywhere(now=datetime(2031, 10, 1, 1, tzinfo=UTC)) as work:
        assert actions.expire_due(work) == 0, "there it is still the thirtieth"
    with cast.everywhere(now=datetime(2031, 10, 1, 4, tzinfo=UTC)) as work:
        assert actions.expire_due(work) == 1


def test_asking_again_leaves_the_old_one_in_force(cast: Cast, granted: Permission) -> None:
    with cast.work("alice", now=cast.now + timedelta(hours=1)) as work:
        again = actions.ask_permission(work, site_id=granted.site_id, on=TODAY)
        assert again.id != granted.id
        assert [each.state for each in queries.permissions_of(work, granted.site_id)] == ["asked", "granted"]
    assert holding_on(cast, granted, TODAY)


def test_asking_twice_is_refused(cast: Cast) -> None:
    permission = in_state(cast, PermissionState.ASKED)
    with pytest.raises(Refused, match="“asked” now"), cast.work("alice") as work:
        actions.ask_permission(work, site_id=permission.site_id, on=TODAY)


@pytest.mark.parametrize(
    ("dates", "field"),
    [
        ({"ends_on": date(2031, 6, 30)}, "ends_on"),
        ({"answered_on": date(2031, 7, 15)}, "answered_on"),
        ({"answered_on": date(2031, 5, 31)}, "answered_on"),
    ],
)
def test_dates_that_cannot_be_are_refused(cast: Cast, dates: dict[str, date], field: str) -> None:
    permission = in_state(cast, PermissionState.ASKED)
    usual = {"answered_on": TODAY, "starts_on": FIRST, "ends_on": LAST}
    with pytest.raises(Refused) as refusal, cast.work("alice") as work:
        actions.grant_permission(work, permission_id=permission.id, **usual | dates)
    assert refusal.value.field == field
    assert state_of(cast, permission) is PermissionState.ASKED


@pytest.mark.parametrize("stranger", ["charlie", "eve", "dora"])
def test_strangers_find_no_permission(cast: Cast, granted: Permission, stranger: str) -> None:
    with pytest.raises(NotFound), cast.work(stranger) as work:
        actions.withdraw_permission(work, permission_id=granted.id, reason="mine")
    assert state_of(cast, granted) is PermissionState.GRANTED


def test_moves_are_told_and_kept(cast: Cast) -> None:
    heard: list[str] = []

    @when(Event.PERMISSION_MOVED)
    def listen(work: Work, permission: Permission) -> None:
        heard.append(str(permission.state))

    try:
        site, _ = opened(cast)
        with cast.work("alice") as work:
            asked = actions.ask_permission(work, site_id=site.id, on=TODAY)
            actions.refuse_permission(work, permission_id=asked.id, answered_on=TODAY, reason="Lambing.")
    finally:
        _listeners[Event.PERMISSION_MOVED].remove(listen)
    assert heard == ["asked", "refused"]
    with cast.everywhere() as work:
        entries = history_of(work, thing_kind="permission", thing_id=str(asked.id))
    assert [(entry.before["state"], entry.after["state"]) for entry in entries] == [
        ("to ask", "asked"),
        ("asked", "refused"),
    ]
    assert entries[-1].reason == "Lambing."


def test_a_signed_letter_is_kept_for_a_granted_permission_alone(cast: Cast, granted: Permission) -> None:
    with cast.work("alice", now=cast.now + timedelta(hours=1)) as work:
        kept = actions.keep_signed_file(work, permission_id=granted.id, signed_file="permissions/1.pdf")
        assert kept.signed_file == "permissions/1.pdf"
        again = actions.ask_permission(work, site_id=granted.site_id, on=TODAY)
        with pytest.raises(Refused):
            actions.keep_signed_file(work, permission_id=again.id, signed_file="permissions/2.pdf")


def asked_again(cast: Cast, site_id: Any, minutes: int = 1) -> Permission:
    with cast.work("alice", now=cast.now + timedelta(minutes=minutes)) as work:
        return actions.ask_permission(work, site_id=site_id, on=TODAY)


def test_a_newer_no_ends_every_earlier_yes_from_its_day(cast: Cast, granted: Permission) -> None:
    newer = asked_again(cast, granted.site_id)
    with cast.work("alice") as work:
        actions.refuse_permission(work, permission_id=newer.id, answered_on=TODAY)
    assert not holding_on(cast, granted, TODAY)
    assert holding_on(cast, granted, TODAY - timedelta(days=1))


def test_a_newer_yes_taken_back_ends_the_earlier_one_too(cast: Cast, granted: Permission) -> None:
    newer = asked_again(cast, granted.site_id)
    with cast.work("alice") as work:
        actions.grant_permission(
            work, permission_id=newer.id, answered_on=TODAY, starts_on=FIRST, ends_on=LAST
        )
        actions.withdraw_permission(work, permission_id=newer.id, reason="hay")
    assert not holding_on(cast, granted, TODAY)


def test_a_yes_after_a_no_holds(cast: Cast, granted: Permission) -> None:
    refused = asked_again(cast, granted.site_id)
    with cast.work("alice") as work:
        actions.refuse_permission(work, permission_id=refused.id, answered_on=TODAY)
    newest = asked_again(cast, granted.site_id, minutes=2)
    with cast.work("alice") as work:
        actions.grant_permission(
            work, permission_id=newest.id, answered_on=TODAY, starts_on=FIRST, ends_on=LAST
        )
    assert holding_on(cast, granted, TODAY)
