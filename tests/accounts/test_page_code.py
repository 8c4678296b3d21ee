"""Signing in with a second step: password, then a code, each of which counts once."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from datetime import timedelta

import pytest
import time_machine
from sqlalchemy import select

from hub.accounts import factors
from hub.accounts.actions import SignInRefused
from hub.accounts.models import SignIn
from hub.accounts.queries import get_person
from hub.audit.models import AuditEntry
from hub.wiring import create_app
from tests.accounts.phone import Phone, password_shown, set_up
from tests.cast import PASSWORD, Cast
from tests.support.browser import Browse, Browser

CODE = "/sign-in/code"
LATER = timedelta(minutes=5)


@pytest.fixture
def phone(browse: Browse) -> Phone:
    return set_up(browse("alice"))[0]


def test_password_and_code_let_in(browse: Browse, cast: Cast, phone: Phone) -> None:
    with time_machine.travel(cast.now + LATER):
        window = browse()
        password_shown(window)
        window.get("/account", 302)  # half a sign-in opens nothing
        assert window.fill(CODE, code=phone.code()).location == "/"
        window.get("/account")


def test_it_goes_back_to_the_wanted_page(browse: Browse, cast: Cast, phone: Phone) -> None:
    with time_machine.travel(cast.now + LATER):
        window = browse()
        form = {"email": "alice@cast.example", "password": PASSWORD, "next": "/our-group"}
        wanted = window.post("/sign-in", form)
        assert window.fill(wanted.location, code=phone.code()).location == "/our-group"


def test_a_code_counts_once(browse: Browse, cast: Cast, phone: Phone) -> None:
    """RFC 6238 §5.2: the second attempt with a code that was taken must not be accepted."""
    with time_machine.travel(cast.now + LATER):
        first, second = browse(), browse()
        password_shown(first)
        password_shown(second)
        code = phone.code()
        first.fill(CODE, code=code)
        assert "does not count" in second.fill(CODE, 422, code=code).beside("code")
        assert "does not count" in second.fill(CODE, 422, code=phone.code(later=-30)).beside("code")


def test_of_many_at_one_moment_one_is_taken(browse: Browse, cast: Cast, phone: Phone) -> None:
    with time_machine.travel(cast.now + LATER, tick=False):
        code, now = phone.code(), cast.now + LATER

        def once(_: int) -> bool:
            with cast.house.work(cast.scope("alice"), now=now) as work:
                try:
                    factors.show(work, person=get_person(work), code=code)
                except SignInRefused:
                    return False
                work.db.commit()
                return True

        with ThreadPoolExecutor(6) as pool:
            assert sum(pool.map(once, range(6))) == 1


def test_a_recovery_code_lets_in_once(browse: Browse, cast: Cast) -> None:
    _, recovery = set_up(browse("alice"))
    for status in (303, 422):
        window = browse()
        password_shown(window)
        window.fill(CODE, status, code=recovery[0].lower())
    with cast.everywhere() as work:
        used = work.db.scalars(
            select(AuditEntry).where(AuditEntry.event == "account:recovery-code-used")
        ).all()
        assert len(used) == 1


def test_a_wrong_code_is_noted_and_not_shown(browse: Browse, cast: Cast, phone: Phone) -> None:
    window = browse()
    password_shown(window)
    page = window.fill(CODE, 422, code="000000")
    assert page.beside("code")
    with cast.everywhere() as work:
        noted = work.db.scalars(select(AuditEntry).where(AuditEntry.event == "account:sign-in-refused")).all()
        assert [entry.thing_id for entry in noted] == [str(cast.people["alice"].id)]
        assert "000000" not in str([vars(entry) for entry in noted])


def test_without_the_password_there_is_nothing_to_answer(browse: Browse, phone: Phone) -> None:
    window = browse()
    assert "/sign-in" in window.get(CODE, 303).location
    assert "/sign-in" in window.post(CODE, {"code": phone.code(later=60)}).location
    assert browse().client.put(CODE).status_code == 405


def test_the_code_must_follow_within_ten_minutes(browse: Browse, cast: Cast, phone: Phone) -> None:
    window = browse()
    password_shown(window)
    with time_machine.travel(cast.now + timedelta(minutes=11)):
        assert "/sign-in" in window.get(CODE, 303).location
        window.post(CODE, {"code": phone.code()}, 303)
        window.get("/account", 302)


def test_a_new_password_by_mail_does_not_go_round_it(browse: Browse, cast: Cast, phone: Phone) -> None:
    """ASVS 5.0 6.4.3; and whoever was halfway in with the old password has to begin again."""
    from hub.accounts.actions import reset_link, use_reset

    halfway = browse()
    password_shown(halfway)
    with cast.everywhere() as work:
        link = reset_link(work, get_person(work, cast.people["alice"].id))
        use_reset(work, token=link.rpartition("/")[2], new="granite kestrels over a quiet tarn")
    with time_machine.travel(cast.now + LATER):
        assert "/sign-in" in halfway.post(CODE, {"code": phone.code()}).location
        halfway.get("/account", 302)
        window = browse()
        answer = window.fill(
            "/sign-in", email="alice@cast.example", password="granite kestrels over a quiet tarn"
        )
        assert answer.location.startswith(CODE)
        window.fill(CODE, code=phone.code())


def test_guessing_codes_is_slowed_and_then_ends(browse: Browse, cast: Cast) -> None:
    """At most 100 failures in a row on one account (NIST SP 800-63B-4 §3.2.2); recovery codes still open."""
    phone, recovery = set_up(browse("alice"))
    taken = 0
    for hours in range(1, 400):
        with time_machine.travel(cast.now + timedelta(hours=2 * hours)):
            window = browse()
            password_shown(window)
            page = window.fill(CODE, 422, code="000000")
            taken += "does not count" in page.main
            if "too many wrong codes" in page.main:
                break
    assert taken == 100
    with time_machine.travel(cast.now + timedelta(days=60)):
        window = browse()
        password_shown(window)
        window.fill(CODE, 422, code=phone.code())
        window.fill(CODE, code=recovery[0])


def test_the_store_knows_when_the_code_was_shown(browse: Browse, cast: Cast, phone: Phone) -> None:
    with cast.everywhere() as work:
        assert work.db.scalars(select(SignIn.factor_at).where(SignIn.ended_at.is_(None))).one() is not None


def test_with_another_key_of_the_hub_codes_count_no_more(browse: Browse, cast: Cast, phone: Phone) -> None:
    house = replace(cast.house, settings=replace(cast.house.settings, secret_key="another key"))
    window = Browser(create_app(house=house), cast)
    with time_machine.travel(cast.now + LATER):
        password_shown(window)
        window.fill(CODE, 422, code=phone.code())


def test_in_a_hub_that_lives_ahead_phones_go_by_the_calendar(cast: Cast) -> None:
    """The demo lives in the season of its data; the phone of whoever tries it does not."""
    house = replace(cast.house, settings=replace(cast.house.settings, days_ahead=200))
    app = create_app(house=house)
    with time_machine.travel(cast.now, tick=True):
        window = Browser(app, cast)
        window.fill("/sign-in", email="alice@cast.example", password=PASSWORD)
        set_up(window)
        assert "on since" in window.get("/account").main
