"""The owner's permission as a path: one next thing to do in every state that asks for one."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from hub.sites.models import Permission
from hub.sites.next_step import Step, path_of
from hub.sites.rules import PermissionState

TODAY = date(2031, 7, 14)


def permission(state: PermissionState, ends_in: int = 90, starts_in: int = -10) -> Permission:
    return Permission(
        state=state,
        asked_on=TODAY - timedelta(40),
        answered_on=TODAY - timedelta(20),
        starts_on=TODAY + timedelta(starts_in),
        ends_on=TODAY + timedelta(ends_in),
        withdrawn_on=TODAY - timedelta(1),
    )


def next_of(steps: list[Step]) -> list[str]:
    return [step.does for step in steps if step.state == "next"]


@pytest.mark.parametrize(
    ("state", "does"),
    [
        (PermissionState.TO_ASK, ["ask"]),
        (PermissionState.ASKED, ["answer"]),
        (PermissionState.GRANTED, []),
        (PermissionState.REFUSED, ["ask"]),
        (PermissionState.EXPIRED, ["ask"]),
        (PermissionState.WITHDRAWN, ["ask"]),
    ],
)
def test_each_state_leads_to_its_next_thing(state: PermissionState, does: list[str]) -> None:
    steps = path_of(permission(state), TODAY)
    assert len(steps) == 3
    assert next_of(steps) == does


def test_a_site_without_any_permission_begins_by_asking() -> None:
    assert next_of(path_of(None, TODAY)) == ["ask"]


@pytest.mark.parametrize(("ends_in", "does"), [(31, []), (30, ["ask"]), (0, ["ask"]), (-1, ["ask"])])
def test_it_asks_again_in_time(ends_in: int, does: list[str]) -> None:
    assert next_of(path_of(permission(PermissionState.GRANTED, ends_in), TODAY)) == does


def test_one_that_begins_later_says_when() -> None:
    step = path_of(permission(PermissionState.GRANTED, starts_in=3), TODAY)[-1]
    assert (step.state, str(step.about)) == ("later", "From 2031-07-17 on.")
