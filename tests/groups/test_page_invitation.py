"""An invitation: sent, taken once by a new or a known account, withdrawn, run out."""

from __future__ import annotations

from datetime import timedelta

import pytest
import time_machine
from sqlalchemy import select

from hub.accounts.models import Person
from hub.audit.models import AuditEntry
from hub.groups.models import Invitation, Seat
from hub.rights.scope import Role
from tests.cast import Cast
from tests.support.browser import Browse
from tests.support.letters import letters_to, link_in

NEWCOMER = "newcomer@cast.example"
GOOD = "granite kestrels over a quiet tarn"


def invited(browse: Browse, cast: Cast, email: str = NEWCOMER, role: str = "member") -> str:
    browse("alice").fill("/our-group/invite", email=email, role=role)
    return link_in(letters_to(cast, email)[-1])


def seats_of(cast: Cast, email: str) -> list[Seat]:
    with cast.everywhere() as work:
        live = select(Seat).join(Person, Person.id == Seat.person_id).where(Seat.ended_at.is_(None))
        return list(work.db.scalars(live.where(Person.email == email)))


def test_somebody_new_makes_an_account_and_is_in(browse: Browse, cast: Cast) -> None:
    link, window = invited(browse, cast), browse()
    page = window.get(link)
    assert "member, Fell Group" in page.main
    assert NEWCOMER in page.main
    assert window.fill(link, name="New Comer", password=GOOD).location == "/"
    assert "New Comer" in window.get("/our-group").main
    (seat,) = seats_of(cast, NEWCOMER)
    assert (seat.role, seat.group_id, seat.bank_id) == (Role.MEMBER, cast.fell_group.id, cast.fell_bank.id)
    with cast.everywhere() as work:
        event = work.db.scalars(select(AuditEntry).where(AuditEntry.event == "seat:taken")).one()
        assert (event.person_id, event.group_id) == (seat.person_id, cast.fell_group.id)


def test_somebody_known_signs_in_and_accepts(browse: Browse, cast: Cast) -> None:
    link, window = invited(browse, cast, "eve@cast.example"), browse()
    page = window.get(link)
    assert "New password" not in page.main
    assert f"/sign-in?next={link}" in page.links
    eve = browse("eve")
    eve.press(link, f"{link}/accept")
    assert "member, Fell Group" in eve.get("/account").main
    assert len(seats_of(cast, "eve@cast.example")) == 2


@pytest.mark.parametrize("again", ["get", "post"])
def test_a_link_works_once(browse: Browse, cast: Cast, again: str) -> None:
    link, window = invited(browse, cast), browse()
    window.fill(link, name="New Comer", password=GOOD)
    other = browse()
    if again == "get":
        assert "is over" in other.get(link, 410).main
    else:
        other.post(link, {"name": "Second", "password": GOOD}, 410)
        browse("eve").post(f"{link}/accept", status=410)
    assert len(seats_of(cast, NEWCOMER)) == 1


def test_it_runs_out_after_a_week(browse: Browse, cast: Cast) -> None:
    link = invited(browse, cast)
    with time_machine.travel(cast.now + timedelta(days=6, hours=23)):
        browse().get(link)
    with time_machine.travel(cast.now + timedelta(days=7, minutes=1)):
        browse().get(link, 410)


def test_a_withdrawn_one_is_worthless(browse: Browse, cast: Cast) -> None:
    link, alice = invited(browse, cast), browse("alice")
    (withdraw,) = [each for each in alice.get("/our-group").actions if each.endswith("/withdraw")]
    browse("charlie").post(withdraw, status=404)
    browse("bob").post(withdraw, status=403)
    browse("dora").post(withdraw, status=403)
    browse().get(link)
    alice.press("/our-group", withdraw)
    browse().get(link, 410)
    alice.post(withdraw, status=404)


def test_a_second_one_to_the_same_address_replaces_the_first(browse: Browse, cast: Cast) -> None:
    first = invited(browse, cast)
    with time_machine.travel(cast.now + timedelta(minutes=1)):
        second = invited(browse, cast)
        browse().get(first, 410)
        browse().get(second)


def test_only_the_digest_is_kept(browse: Browse, cast: Cast) -> None:
    token = invited(browse, cast).rpartition("/")[2]
    with cast.everywhere() as work:
        assert token != work.db.scalars(select(Invitation.token_digest)).one()


@pytest.mark.parametrize(
    ("box", "typed", "says"),
    [
        ("password", "too short", "15 characters"),
        ("password", "fell group fell group 31", "guessed first"),
        ("password", "newcomer newcomer cast", "guessed first"),
        ("name", "", "fill this in"),
    ],
)
def test_a_mistake_keeps_the_invitation_open(
    browse: Browse, cast: Cast, box: str, typed: str, says: str
) -> None:
    link, window = invited(browse, cast), browse()
    page = window.fill(link, 422, **{"name": "New Comer", "password": GOOD, box: typed})
    assert says in page.beside(box)
    assert seats_of(cast, NEWCOMER) == []
    window.fill(link, name="New Comer", password=GOOD)


def test_an_address_with_an_account_makes_no_second_one(browse: Browse, cast: Cast) -> None:
    link, window = invited(browse, cast, "eve@cast.example"), browse()
    page = window.post(link, {"name": "Eve Two", "password": GOOD}, 422)
    assert "There is an account" in " ".join(page.problems)
    assert len(seats_of(cast, "eve@cast.example")) == 1


def test_a_member_invited_to_lead_holds_one_seat(browse: Browse, cast: Cast) -> None:
    link, bob = invited(browse, cast, "bob@cast.example", "lead"), browse("bob")
    bob.press(link, f"{link}/accept")
    (seat,) = seats_of(cast, "bob@cast.example")
    assert seat.role is Role.LEAD
    bob.get("/our-group/invite")


def test_a_visitor_cannot_accept_without_an_account(browse: Browse, cast: Cast) -> None:
    link = invited(browse, cast)
    browse().post(f"{link}/accept", status=401)


@pytest.mark.parametrize("token", ["made-up", "%00", "a" * 2000])
def test_a_made_up_link_says_no_more_than_a_dead_one(browse: Browse, token: str) -> None:
    assert "is over" in browse().get(f"/invitations/{token}", 410).main


def test_trying_links_is_limited(browse: Browse) -> None:
    window = browse()
    for number in range(60):
        window.client.get(f"/invitations/guess-{number}")
    window.get("/invitations/one-more", 429)


def test_it_has_no_other_verbs(browse: Browse, cast: Cast) -> None:
    link = invited(browse, cast)
    assert browse().client.delete(link).status_code == 405
    browse("eve").get(f"{link}/accept", 405)
