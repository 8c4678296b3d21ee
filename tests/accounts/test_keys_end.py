"""Whatever rescues a stolen account ends the keys that a thief may have made in it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
import time_machine
from flask import Flask

from hub.accounts.actions import end_sessions_of
from hub.accounts.models import SecondFactor
from hub.accounts.tokens import make_token
from hub.wiring import create_app
from tests.accounts.phone import PATH, set_up
from tests.cast import PASSWORD, Cast
from tests.support.browser import Browse, Browser
from tests.support.letters import letters_to, link_in

NEW = "granite kestrels over a quiet tarn"


def key_of(cast: Cast, name: str) -> str:
    with cast.work(name) as work:
        return make_token(work, seat_id=cast.seats[name].id, name="Tablet", days=30)


def opens(app: Flask, key: str) -> bool:
    answer = app.test_client(use_cookies=False).get("/api/v1/me", headers={"Authorization": f"Bearer {key}"})
    assert answer.status_code in (200, 401)
    return answer.status_code == 200


def new_password(window: Browser, cast: Cast) -> None:
    window.fill("/account/password", current=PASSWORD, new=NEW)


def reset_by_mail(window: Browser, cast: Cast) -> None:
    window.fill("/reset", email="alice@cast.example")
    window.fill(link_in(letters_to(cast, "alice@cast.example")[-1]), new=NEW)


def ended_by_herself(window: Browser, cast: Cast) -> None:
    window.post("/account/sessions/end-others")


def second_step_on(window: Browser, cast: Cast) -> None:
    set_up(window)


def ended_for_her(window: Browser, cast: Cast) -> None:
    with cast.everywhere() as work:
        end_sessions_of(work, person_id=cast.people["alice"].id)


RESCUES = [new_password, reset_by_mail, ended_by_herself, second_step_on, ended_for_her]


@pytest.mark.parametrize("rescue", RESCUES)
def test_a_key_ends_with_the_rescue(
    browse: Browse, app: Flask, cast: Cast, rescue: Callable[[Browser, Cast], None]
) -> None:
    hers, his = key_of(cast, "alice"), key_of(cast, "bob")
    window = browse("alice")
    assert opens(app, hers)
    rescue(window, cast)
    assert not opens(app, hers)
    assert opens(app, his)


def test_turning_the_second_step_off_ends_them_too(browse: Browse, app: Flask, cast: Cast) -> None:
    window = browse("alice")
    phone, _ = set_up(window)
    page = window.fill("/account/keys", 200, name="Tablet", days="30")
    (hers,) = ["".join(each.itertext()) for each in page.all("code")]
    assert opens(app, hers)
    with time_machine.travel(cast.now.timestamp() + 60):
        window.post(f"{PATH}/off", {"password": PASSWORD, "code": phone.code()})
    assert not opens(app, hers)


def test_where_a_second_step_is_required_a_key_needs_a_person_who_has_one(cast: Cast) -> None:
    """A key asks for no code; one from before the requirement would be the way round it."""
    cora, alice = key_of(cast, "cora"), key_of(cast, "alice")
    strict = replace(cast.house.settings, second_factor="required")
    app = create_app(house=replace(cast.house, settings=strict))
    with time_machine.travel(cast.now, tick=True):
        assert not opens(app, cora)
        assert opens(app, alice)
        with cast.everywhere() as work:
            person_id = cast.people["cora"].id
            work.db.add(SecondFactor(person_id=person_id, sealed_secret="sealed", confirmed_at=cast.now))
        assert opens(app, cora)
