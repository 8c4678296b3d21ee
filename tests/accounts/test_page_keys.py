"""Keys for programs: shown once, kept as a digest, tied to one seat, ended at will or by themselves."""

from __future__ import annotations

from datetime import timedelta

import pytest
import time_machine
from flask import Flask

from hub.accounts.models import ApiToken
from hub.groups.callers import who
from hub.groups.models import Seat
from hub.web.caller import VISITOR, Caller
from tests.cast import Cast
from tests.support.browser import Browse, Browser

PATH = "/account/keys"


def made(window: Browser) -> str:
    page = window.fill(PATH, 200, name="Field tablet", days="30")
    (token,) = ["".join(each.itertext()) for each in page.all("code")]
    return token


def asking(app: Flask, header: str, path: str = "/api/v1/") -> Caller:
    with app.test_request_context(path, headers={"Authorization": header}):
        return who()


def test_it_speaks_for_its_maker_in_their_seat(browse: Browse, cast: Cast, app: Flask) -> None:
    token = made(browse("alice"))
    assert asking(app, f"Bearer {token}").scope == cast.scope("alice")
    with cast.everywhere() as work:
        (key,) = work.db.query(ApiToken).all()
        assert key.used_at is not None
        assert token not in (key.token_digest, key.name)


def test_it_is_shown_once(browse: Browse) -> None:
    window = browse("alice")
    token = made(window)
    page = window.get("/account")
    assert "Field tablet" in page.main
    assert token not in page.html


@pytest.mark.parametrize("header", ["", "Bearer", "Bearer made-up", "Basic YWxpY2U6cGFzcw==", "Bearer é"])
def test_anything_else_is_a_visitor(app: Flask, cast: Cast, header: str) -> None:
    assert asking(app, header) is VISITOR


def test_it_opens_no_pages_and_a_session_opens_no_api(browse: Browse, app: Flask) -> None:
    window = browse("alice")
    token = made(window)
    assert asking(app, f"Bearer {token}", "/account") is VISITOR
    cookie = window.client.get_cookie("hub")
    assert cookie
    with app.test_request_context("/api/v1/", headers={"Cookie": f"hub={cookie.value}"}):
        assert who() is VISITOR


def test_an_ended_key_is_dead(browse: Browse, app: Flask) -> None:
    window = browse("alice")
    token = made(window)
    (end,) = [each for each in window.get("/account").actions if each.startswith(f"{PATH}/")]
    browse("charlie").post(end, status=404)
    window.get(end, 405)
    window.press("/account", end)
    assert asking(app, f"Bearer {token}") is VISITOR
    window.post(end, status=404)


def test_it_ends_by_itself_and_with_its_seat(browse: Browse, cast: Cast, app: Flask) -> None:
    token = made(browse("alice"))
    with time_machine.travel(cast.now + timedelta(days=31)):
        assert asking(app, f"Bearer {token}") is VISITOR
    with cast.everywhere() as work:
        work.db.get_one(Seat, cast.seats["alice"].id).ended_at = work.now
    assert asking(app, f"Bearer {token}") is VISITOR


@pytest.mark.parametrize(("days", "says"), [("0", "1 to 365"), ("400", "1 to 365"), ("soon", "whole number")])
def test_it_says_what_is_wrong_and_keeps_what_was_typed(browse: Browse, days: str, says: str) -> None:
    page = browse("alice").fill(PATH, 422, name="Field tablet", days=days)
    assert says in page.beside("days")
    assert page.typed("name") == "Field tablet"
    assert page.typed("days") == days


def test_twenty_are_enough(browse: Browse) -> None:
    window = browse("alice")
    for _ in range(20):
        made(window)
    window.fill(PATH, 429, name="One more", days="30")
