"""A new password by mail: the same answer to everybody, a link that works once and not for long."""

from __future__ import annotations

from datetime import timedelta

import pytest
import time_machine

from hub.accounts.models import ResetLink
from tests.cast import PASSWORD, Cast
from tests.support.browser import Browse
from tests.support.letters import letters_to, link_in

ALICE = "alice@cast.example"
NEW = "granite kestrels over a quiet tarn"


def asked(browse: Browse, cast: Cast) -> str:
    browse().fill("/reset", email=ALICE)
    return link_in(letters_to(cast, ALICE)[-1])


def test_it_works_and_ends_every_session(browse: Browse, cast: Cast) -> None:
    phone = browse("alice")
    link = asked(browse, cast)
    window = browse()
    assert window.fill(link, new=NEW).location == "/sign-in"
    phone.get("/account", 302)
    window.fill("/sign-in", 422, email=ALICE, password=PASSWORD)
    window.fill("/sign-in", email=ALICE, password=NEW)


def test_known_and_unknown_addresses_get_the_same_answer(browse: Browse, cast: Cast) -> None:
    window, answers = browse(), []
    for email in (ALICE, "nobody@cast.example"):
        page = window.follow(window.fill("/reset", email=email))
        answers.append(page.main)
    assert answers[0] == answers[1]
    assert "If this address has an account" in answers[0]
    assert letters_to(cast, "nobody@cast.example") == []


def test_the_letter_holds_the_link_and_the_store_its_digest(browse: Browse, cast: Cast) -> None:
    token = asked(browse, cast).removeprefix("/reset/")
    with cast.everywhere() as work:
        assert token not in [link.token_digest for link in work.db.query(ResetLink)]
    (letter,) = letters_to(cast, ALICE)
    assert "30 minutes" in letter.body


def test_a_link_works_once(browse: Browse, cast: Cast) -> None:
    link, window = asked(browse, cast), browse()
    window.fill(link, new=NEW)
    assert window.get(link, 303).location == "/reset"
    assert window.post(link, {"new": NEW}).location == "/reset"


def test_a_weak_password_does_not_use_it_up(browse: Browse, cast: Cast) -> None:
    link, window = asked(browse, cast), browse()
    page = window.fill(link, 422, new="Fell Group 2031 fell group")
    assert "guessed first" in page.beside("new")
    window.fill(link, new=NEW)


def test_a_newer_link_replaces_it(browse: Browse, cast: Cast) -> None:
    first = asked(browse, cast)
    with time_machine.travel(cast.now + timedelta(minutes=1)):
        second = asked(browse, cast)
        browse().get(first, 303)
        browse().get(second)


@pytest.mark.parametrize(("minutes", "status"), [(29, 200), (31, 303)])
def test_it_runs_out(browse: Browse, cast: Cast, minutes: int, status: int) -> None:
    link = asked(browse, cast)
    with time_machine.travel(cast.now + timedelta(minutes=minutes)):
        browse().get(link, status)


@pytest.mark.parametrize("token", ["made-up", "%00", "a" * 3000])
def test_a_made_up_link_leads_to_asking_anew(browse: Browse, token: str) -> None:
    assert browse().get(f"/reset/{token}", 303).location == "/reset"


def test_asking_is_limited_for_one_address(browse: Browse, cast: Cast) -> None:
    window = browse()
    for _ in range(3):
        window.fill("/reset", email=ALICE)
    window.fill("/reset", 429, email=ALICE)
    assert len(letters_to(cast, ALICE)) == 3
    window.fill("/reset", email="bob@cast.example")


def test_it_says_what_is_wrong_with_an_address(browse: Browse) -> None:
    page = browse().fill("/reset", 422, email="not an address")
    assert page.beside("email")
    assert page.typed("email") == "not an address"


def test_it_has_no_other_verbs(browse: Browse) -> None:
    assert browse().client.delete("/reset").status_code == 405
