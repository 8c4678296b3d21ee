"""Changing one's password: needs the present one, ends the other sessions, takes any good phrase."""

from __future__ import annotations

import pytest

from tests.cast import PASSWORD, Cast
from tests.support.browser import Browse

NEW = "granite kestrels over a quiet tarn"
PATH = "/account/password"


def test_it_works_and_ends_the_other_sessions(browse: Browse) -> None:
    window, phone = browse("alice"), browse("alice")
    window.fill(PATH, current=PASSWORD, new=NEW)
    window.get("/account")
    phone.get("/account", 302)
    later = browse()
    later.fill("/sign-in", 422, email="alice@cast.example", password=PASSWORD)
    later.fill("/sign-in", email="alice@cast.example", password=NEW)


@pytest.mark.parametrize(
    ("current", "new", "box", "says"),
    [
        ("not it at all", NEW, "current", "present password"),
        (PASSWORD, "too short", "new", "15 characters"),
        (PASSWORD, "Fell Group 2031 fell group", "new", "guessed first"),
        (PASSWORD, "alice@cast.example.alice", "new", "guessed first"),
        (PASSWORD, "Test Vale Far Bank 12", "new", "guessed first"),
    ],
)
def test_it_says_why_not_and_changes_nothing(
    browse: Browse, current: str, new: str, box: str, says: str
) -> None:
    page = browse("alice").fill(PATH, 422, current=current, new=new)
    assert says in page.beside(box)
    assert new not in page.html
    browse().fill("/sign-in", email="alice@cast.example", password=PASSWORD)


def test_a_phrase_is_one_whichever_way_its_accents_are_typed(browse: Browse) -> None:
    browse("alice").fill(PATH, current=PASSWORD, new="café crème über tausend Hügel")
    browse().fill(
        "/sign-in",
        email="alice@cast.example",
        password="cafe\u0301 cre\u0300me u\u0308ber tausend Hu\u0308gel",
    )


def test_it_is_for_oneself_alone(browse: Browse, cast: Cast) -> None:
    assert "/sign-in" in browse().get(PATH, 302).location
    browse().post(PATH, {"current": PASSWORD, "new": NEW}, 401)


def test_guessing_the_present_one_is_slowed(browse: Browse) -> None:
    window = browse("alice")
    for _ in range(10):
        window.fill(PATH, 422, current="a wild guess", new=NEW)
    window.fill(PATH, 429, current="a wild guess", new=NEW)


def test_it_has_no_other_verbs(browse: Browse) -> None:
    assert browse("alice").client.delete(PATH).status_code == 405
