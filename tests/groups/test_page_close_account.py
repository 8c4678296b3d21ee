"""Closing one's account: needs the password, wipes the name, leaves nobody without a lead."""

from __future__ import annotations

from hub.accounts.models import Person
from tests.cast import PASSWORD, Cast
from tests.support.browser import Browse

PATH = "/account/close"


def test_it_wipes_the_person_and_ends_everything(browse: Browse, cast: Cast) -> None:
    bob, phone = browse("bob"), browse("bob")
    assert bob.fill(PATH, password=PASSWORD).location == "/sign-in"
    phone.get("/account", 302)
    browse().fill("/sign-in", 422, email="bob@cast.example", password=PASSWORD)
    assert "Bob" not in browse("alice").get("/our-group").html
    with cast.everywhere() as work:
        person = work.db.get_one(Person, cast.people["bob"].id)
        assert "bob" not in f"{person.email} {person.name}".lower()
        assert (person.password_hash, person.closed_at is None) == ("", False)


def test_the_address_may_come_back_as_somebody_new(browse: Browse, cast: Cast) -> None:
    browse("bob").fill(PATH, password=PASSWORD)
    browse("alice").fill("/our-group/invite", email="bob@cast.example", role="member")


def test_the_last_lead_stays(browse: Browse, cast: Cast) -> None:
    page = browse("alice").fill(PATH, 422, password=PASSWORD)
    assert "only group lead" in " ".join(page.problems)
    browse("alice").get("/our-group")


def test_a_wrong_password_closes_nothing(browse: Browse) -> None:
    page = browse("bob").fill(PATH, 422, password="not the password")
    assert "present password" in page.beside("password")
    browse("bob").get("/our-group")


def test_visitors_and_verbs(browse: Browse) -> None:
    assert "/sign-in" in browse().get(PATH, 302).location
    assert browse("bob").client.delete(PATH).status_code == 405
