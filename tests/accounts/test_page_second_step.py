"""The second step is set up with a phone, shown once in full, turned off by password and code together."""

from __future__ import annotations

from datetime import timedelta

import pytest
import time_machine
from sqlalchemy import select

from hub.accounts.models import Letter, RecoveryCode, SecondFactor
from hub.audit.models import AuditEntry
from tests.accounts.phone import PATH, begun, password_shown, set_up
from tests.cast import PASSWORD, Cast
from tests.support.browser import Browse


def events(cast: Cast) -> list[str]:
    with cast.everywhere() as work:
        return list(work.db.scalars(select(AuditEntry.event).order_by(AuditEntry.serial)))


def test_it_is_set_up_with_a_first_code(browse: Browse, cast: Cast) -> None:
    window, elsewhere = browse("cora"), browse("cora")
    assert "Please set it up" in window.get(PATH).main
    _, recovery = set_up(window)
    assert len(set(recovery)) == 8
    assert "on since" in window.get("/account").main
    assert "8 recovery codes left" in window.get(PATH).main
    elsewhere.get("/account", 302)
    assert "account:second-factor-on" in events(cast)
    with cast.everywhere() as work:
        letters = work.db.scalars(select(Letter).where(Letter.to == "cora@cast.example")).all()
        assert "now on" in letters[0].body


def test_nothing_that_opens_it_stands_in_the_store(browse: Browse, cast: Cast) -> None:
    window = browse("alice")
    phone = begun(window)
    page = window.fill(f"{PATH}/set-up", 200, code=phone.code())
    shown = ["".join(each.itertext()) for each in page.all("code")]
    with cast.everywhere() as work:
        factor = work.db.scalars(select(SecondFactor)).one()
        digests = work.db.scalars(select(RecoveryCode.digest)).all()
    assert not any(code.replace("-", "") in " ".join(digests).upper() for code in shown)
    secret = page.html  # neither is it on any page again
    assert factor.sealed_secret not in secret
    window.get(f"{PATH}/set-up", 404)
    assert not any(code in window.get(PATH).html for code in shown)


def test_it_asks_for_the_password_first(browse: Browse) -> None:
    page = browse("alice").fill(PATH, 422, password="not it at all")
    assert "present password" in page.beside("password")


def test_a_wrong_first_code_turns_nothing_on(browse: Browse) -> None:
    window = browse("alice")
    phone = begun(window)
    page = window.fill(f"{PATH}/set-up", 422, code=phone.code(later=600))
    assert "does not count" in page.beside("code")
    assert "off: set it up" in window.get("/account").main
    browse().fill("/sign-in", email="alice@cast.example", password=PASSWORD)


def test_a_picture_carries_the_same_secret(browse: Browse) -> None:
    window = browse("alice")
    begun(window)
    (picture,) = window.get(f"{PATH}/set-up").all("img")
    assert picture.get("src", "").startswith("data:image/svg+xml")


def test_turning_it_off_needs_password_and_code(browse: Browse, cast: Cast) -> None:
    window = browse("alice")
    phone, _ = set_up(window)
    with time_machine.travel(cast.now + timedelta(minutes=2)):
        off = f"{PATH}/off"
        window.post(off, {"password": PASSWORD, "code": "000000"}, 422)
        window.post(off, {"password": "not it at all", "code": phone.code()}, 422)
        assert "on since" in window.get("/account").main
        window.post(off, {"password": PASSWORD, "code": phone.code()})
        assert "off: set it up" in window.get("/account").main
    assert "account:second-factor-off" in events(cast)
    browse().fill("/sign-in", email="alice@cast.example", password=PASSWORD)


def test_new_recovery_codes_end_the_earlier_ones(browse: Browse, cast: Cast) -> None:
    window = browse("alice")
    phone, first = set_up(window)
    with time_machine.travel(cast.now + timedelta(minutes=2)):
        page = window.fill(PATH, 200, password=PASSWORD, code=phone.code())
        second = ["".join(each.itertext()) for each in page.all("code")]
    assert not set(first) & set(second)
    other = browse()
    password_shown(other)
    other.fill("/sign-in/code", 422, code=first[0])
    other.fill("/sign-in/code", code=second[0])


def test_it_is_on_once(browse: Browse) -> None:
    window = browse("alice")
    set_up(window)
    page = window.post(PATH, {"password": PASSWORD}, 422)
    assert "on already" in page.problems[0]


def test_a_key_for_a_program_needs_a_code_of_late(browse: Browse, cast: Cast) -> None:
    window = browse("alice")
    phone, _ = set_up(window)
    window.fill("/account/keys", 200, name="Right after", days="30")
    with time_machine.travel(cast.now + timedelta(minutes=16)):
        page = window.fill("/account/keys", 422, name="Later", days="30", code="")
        assert page.beside("code")
        window.fill("/account/keys", 200, name="Later", days="30", code=phone.code())


@pytest.mark.parametrize("path", [PATH, f"{PATH}/set-up"])
def test_it_is_for_oneself_alone(browse: Browse, path: str) -> None:
    assert "/sign-in" in browse().get(path, 302).location
    browse().post(path, {"password": PASSWORD, "code": "123456"}, 401)
    assert browse("alice").client.delete(path).status_code == 405


def test_where_nothing_is_being_set_up_there_is_nothing(browse: Browse) -> None:
    window = browse("alice")
    window.get(f"{PATH}/set-up", 404)
    window.post(f"{PATH}/set-up", {"code": "123456"}, 404)
    window.get(f"{PATH}/off", 405)
    window.post(f"{PATH}/off", {"password": PASSWORD, "code": "123456"}, 422)
