"""One's own account: who, where signed in, which keys; and moving from one seat to another."""

from __future__ import annotations

from datetime import timedelta

from sqlalchemy import select

from hub.accounts.models import SignIn
from hub.groups.models import Seat
from hub.rights.scope import Role
from tests.cast import Cast
from tests.support.browser import Browse


def second_seat(cast: Cast) -> Seat:
    """Alice also works in the laboratory of the Far Bank."""
    with cast.everywhere() as work:
        seat = Seat(
            person_id=cast.people["alice"].id,
            role=Role.TECHNICIAN,
            bank_id=cast.far_bank.id,
            since=work.now + timedelta(minutes=1),
        )
        work.db.add(seat)
    return seat


def test_it_shows_one_s_own_and_nobody_else_s(browse: Browse) -> None:
    browse("bob")
    window = browse("alice")
    page = window.get("/account")
    assert "alice@cast.example" in page.main
    assert "bob" not in page.main.lower()
    assert "Firefox on Linux" in page.main
    assert len(window.queries) == 5  # the caller; then the person, the sessions, the keys, the second factor


def test_a_visitor_is_asked_to_sign_in(browse: Browse) -> None:
    assert browse().get("/account", 302).location == "/sign-in?next=%2Faccount"
    assert browse("alice").client.post("/account").status_code == 405


def test_another_seat_of_one_s_own_can_be_taken(browse: Browse, cast: Cast) -> None:
    seat = second_seat(cast)
    window = browse("alice")
    assert "technician, Far Bank" in window.get("/account").text
    window.post("/seat", {"seat": str(seat.id)})
    page = window.get("/account")
    assert "technician, Far Bank" in page.main
    assert "group lead, Fell Group" not in page.main
    window.get("/our-group", 403)


def test_the_seat_is_remembered_at_the_next_sign_in(browse: Browse, cast: Cast) -> None:
    seat = second_seat(cast)
    browse("alice").post("/seat", {"seat": str(seat.id)})
    assert "technician, Far Bank" in browse("alice").get("/account").main


def test_a_seat_of_somebody_else_cannot_be_taken(browse: Browse, cast: Cast) -> None:
    window = browse("alice")
    for seat in (cast.seats["cora"].id, "00000000-0000-4000-8000-000000000000"):
        window.post("/seat", {"seat": str(seat)}, 404)
    window.get("/seat", 405)
    assert "group lead, Fell Group" in window.get("/account").main
    with cast.everywhere() as work:
        assert work.db.scalars(select(SignIn.seat_id)).all() == [None]


def test_a_seat_that_is_no_seat_is_bad_input(browse: Browse) -> None:
    browse("alice").post("/seat", {"seat": "the big chair"}, 422)
    browse("alice").post("/seat", status=422)
