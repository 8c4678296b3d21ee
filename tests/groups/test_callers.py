"""The caller of a request: the right scope for every seat, for one question to the database."""

from __future__ import annotations

from dataclasses import replace

import pytest
from flask import Flask

from hub.groups.callers import who
from hub.groups.models import Bank, Group
from hub.groups.rules import GroupState
from hub.rights.scope import Scope
from hub.web.caller import Caller
from tests.cast import SEATS, Cast
from tests.support.browser import Browse, Browser, asked


def caller_of(app: Flask, window: Browser) -> Caller:
    cookie = window.client.get_cookie("hub")
    assert cookie
    with app.test_request_context("/", headers={"Cookie": f"hub={cookie.value}"}):
        return who()


@pytest.mark.parametrize("name", SEATS)
def test_each_seat_gets_its_scope(app: Flask, browse: Browse, cast: Cast, name: str) -> None:
    window = browse(name)
    with asked(cast.house.engine) as questions:
        caller = caller_of(app, window)
    region = None if name == "stan" else cast.region.id  # a steward belongs to no region
    assert caller.scope == replace(cast.scope(name), region_id=region)
    assert caller.name == name.title()
    assert len(questions) == 1


@pytest.mark.parametrize(
    ("name", "label"),
    [
        ("alice", "group lead, Fell Group"),
        ("cora", "curator, Fell Bank"),
        ("olga", "coordinator, Test Vale"),
        ("stan", "steward"),
    ],
)
def test_each_seat_is_called_by_its_name(app: Flask, browse: Browse, name: str, label: str) -> None:
    assert caller_of(app, browse(name)).seat_label == label


def test_pages_speak_the_bank_s_time(app: Flask, browse: Browse, cast: Cast) -> None:
    with cast.everywhere() as work:
        work.db.get_one(Bank, cast.fell_bank.id).zone = "Atlantic/Azores"
    assert caller_of(app, browse("alice")).zone == "Atlantic/Azores"
    assert caller_of(app, browse("dora")).zone == "UTC"


def test_a_group_that_is_not_at_work_gives_no_seat(app: Flask, browse: Browse, cast: Cast) -> None:
    with cast.everywhere() as work:
        work.db.get_one(Group, cast.fell_group.id).state = GroupState.CLOSED
    caller = caller_of(app, browse("alice"))
    assert caller.scope == Scope(person_id=cast.people["alice"].id)
    assert caller.other_seats == ()
