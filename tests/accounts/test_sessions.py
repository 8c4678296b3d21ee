"""Sessions end in the store: by signing out, by being left alone, by age, from another device."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest
import time_machine

from hub.accounts.models import SignIn
from hub.db.work import House
from hub.groups.models import Seat
from hub.wiring import create_app
from tests.cast import Cast
from tests.support.browser import Browse, Browser


def test_signing_out_ends_the_session_in_the_store(browse: Browse) -> None:
    window = browse("alice")
    stolen = window.client.get_cookie("hub")
    assert stolen
    assert window.post("/sign-out").location == "/sign-in"
    window.client.set_cookie("hub", stolen.value)
    assert "/sign-in" in window.get("/account", 302).location


@pytest.mark.parametrize(
    ("later", "still_in"),
    [(timedelta(hours=11), True), (timedelta(hours=13), False)],
    ids=["within the idle time", "beyond it"],
)
def test_a_session_left_alone_ends(browse: Browse, cast: Cast, later: timedelta, still_in: bool) -> None:
    window = browse("alice")
    with time_machine.travel(cast.now + later):
        window.get("/account", 200 if still_in else 302)


def test_a_session_in_use_ends_after_its_days(browse: Browse, cast: Cast) -> None:
    window = browse("alice")
    for hours in range(10, 14 * 24, 10):
        with time_machine.travel(cast.now + timedelta(hours=hours)):
            window.get("/account")
    with time_machine.travel(cast.now + timedelta(days=14, hours=1)):
        window.get("/account", 302)


def test_reading_seldom_writes(browse: Browse, cast: Cast) -> None:
    window = browse("alice")
    window.get("/our-group/leave")
    assert not [each for each in window.queries if each.startswith("UPDATE")]
    with time_machine.travel(cast.now + timedelta(minutes=6)):
        window.get("/our-group/leave")
        assert len([each for each in window.queries if each.startswith("UPDATE")]) == 1


def test_another_session_can_be_ended_from_here(browse: Browse) -> None:
    phone, laptop = browse("alice"), browse("alice")
    ends = [action for action in laptop.get("/account").actions if action.endswith("/end")]
    laptop.press("/account", ends[0])
    phone.get("/account", 302)
    laptop.get("/account")


def test_all_others_end_at_once_and_nobody_else_s(browse: Browse) -> None:
    phone, laptop, bob = browse("alice"), browse("alice"), browse("bob")
    laptop.press("/account", "/account/sessions/end-others")
    phone.get("/account", 302)
    laptop.get("/account")
    bob.get("/account")


def test_a_stranger_cannot_end_it(browse: Browse, cast: Cast) -> None:
    browse("alice")
    with cast.everywhere() as work:
        (sign_in,) = work.db.query(SignIn).all()
    charlie = browse("charlie")
    charlie.post(f"/account/sessions/{sign_in.id}/end", status=404)
    charlie.post("/account/sessions/00000000-0000-4000-8000-000000000000/end", status=404)
    charlie.get(f"/account/sessions/{sign_in.id}/end", 405)


def test_a_made_up_token_is_nobody(browse: Browse) -> None:
    window = browse()
    with window.client.session_transaction() as session:
        session["_user_id"] = "made up"
    window.get("/account", 302)


def test_an_ended_seat_is_worked_in_no_more(browse: Browse, cast: Cast) -> None:
    window = browse("bob")
    window.get("/our-group")
    with cast.everywhere() as work:
        work.db.get_one(Seat, cast.seats["bob"].id).ended_at = work.now
    window.get("/our-group", 403)
    window.get("/account")


def test_under_https_the_cookie_is_bound_to_the_host(house: House, cast: Cast) -> None:
    settings = replace(house.settings, base_url="https://hub.example")
    app = create_app(house=replace(house, settings=settings))
    answer = Browser(app, cast).client.get("/sign-in", base_url="https://hub.example")
    cookie = answer.headers["Set-Cookie"]
    assert cookie.startswith("__Host-hub=")
    assert "Secure" in cookie
    assert "Path=/" in cookie
    assert "Domain" not in cookie
