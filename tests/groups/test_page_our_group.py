"""A group's own page: members look, leads invite, change roles and remove; nobody is left without a lead."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor

import pytest
from sqlalchemy import select

from hub.audit.models import AuditEntry
from hub.groups import seats
from hub.groups.models import Group, Seat
from hub.rights.scope import Role
from hub.words import Refused
from tests.cast import Cast
from tests.support.browser import Browse
from tests.support.letters import letters_to

PATH = "/our-group"


def role_of(cast: Cast, name: str) -> Role | None:
    with cast.everywhere() as work:
        live = select(Seat.role).where(Seat.person_id == cast.people[name].id, Seat.ended_at.is_(None))
        return work.db.scalars(live).one_or_none()


def make(cast: Cast, name: str, role: str) -> str:
    with cast.everywhere() as work:
        live = select(Seat.id).where(Seat.person_id == cast.people[name].id, Seat.ended_at.is_(None))
        return f"{PATH}/seats/{work.db.scalars(live).one()}/make/{role}"


def test_a_lead_sees_who_is_in_it(browse: Browse) -> None:
    window = browse("alice")
    page = window.get(PATH)
    assert "Bob" in page.main
    assert "Charlie" not in page.html
    assert f"{PATH}/invite" in page.links
    assert len(window.queries) == 6  # the caller, the group, its bank, members, invitations, crews


def test_a_member_looks_and_changes_nothing(browse: Browse, cast: Cast) -> None:
    bob = browse("bob")
    page = bob.get(PATH)
    assert "Alice" in page.main
    assert page.actions == []
    bob.get(f"{PATH}/invite", 403)
    bob.post(f"{PATH}/invite", {"email": "a@b.example", "role": "lead"}, 403)
    bob.post(make(cast, "bob", "lead"), status=403)
    bob.post(f"{PATH}/seats/{cast.seats['alice'].id}/end", status=403)
    bob.post(f"{PATH}/about", {"about": "mine"}, 403)
    assert role_of(cast, "bob") is Role.MEMBER


def test_strangers_get_nothing(browse: Browse, cast: Cast) -> None:
    charlie = browse("charlie")
    for path in (make(cast, "bob", "lead"), f"{PATH}/seats/{cast.seats['bob'].id}/end"):
        charlie.post(path, status=404)
    charlie.get(f"{PATH}/seats/{cast.seats['bob'].id}/end", 404)
    charlie.post(f"{PATH}/seats/00000000-0000-4000-8000-000000000000/end", status=404)
    charlie.get(f"{PATH}/seats/not-an-id/end", 404)
    assert role_of(cast, "bob") is Role.MEMBER


@pytest.mark.parametrize("name", ["tess", "olga", "stan"])
def test_other_seats_have_no_group(browse: Browse, name: str) -> None:
    browse(name).get(PATH, 403)


def test_a_curator_has_none_either(browse: Browse) -> None:
    browse("cora").get(PATH, 404)
    assert "/sign-in" in browse().get(PATH, 302).location


@pytest.mark.parametrize(
    ("box", "typed", "says"),
    [
        ("email", "nobody", "e-mail address"),
        ("role", "curator", "does not invite"),
        ("role", "king", "one of those offered"),
    ],
)
def test_an_invitation_that_cannot_be_sent(
    browse: Browse, cast: Cast, box: str, typed: str, says: str
) -> None:
    page = browse("alice").post(
        f"{PATH}/invite", {"email": "new@cast.example", "role": "member", box: typed}, 422
    )
    assert says in page.beside(box)
    assert letters_to(cast, "new@cast.example") == []


def test_a_member_becomes_lead_and_then_the_first_may_go(browse: Browse, cast: Cast) -> None:
    alice = browse("alice")
    alice.press(PATH, make(cast, "bob", "lead"))
    assert role_of(cast, "bob") is Role.LEAD
    assert alice.press(f"{PATH}/leave", f"{PATH}/leave").location == "/account"
    assert role_of(cast, "alice") is None
    alice.get(PATH, 403)
    with cast.everywhere() as work:
        events = work.db.scalars(select(AuditEntry.event).where(AuditEntry.thing_kind == "seat")).all()
        assert sorted(events) == ["seat:ended", "seat:ended", "seat:taken"]


@pytest.mark.parametrize("way", ["leave", "step down"])
def test_the_last_lead_stays(browse: Browse, cast: Cast, way: str) -> None:
    alice = browse("alice")
    path = f"{PATH}/leave" if way == "leave" else make(cast, "alice", "member")
    page = alice.post(path, status=409)
    assert "only group lead" in page.main
    assert role_of(cast, "alice") is Role.LEAD


def test_a_member_may_leave_and_come_back(browse: Browse, cast: Cast) -> None:
    browse("bob").press(f"{PATH}/leave", f"{PATH}/leave")
    assert role_of(cast, "bob") is None
    with cast.everywhere() as work:
        group = work.db.get_one(Group, cast.fell_group.id)
        seats.seat(
            work,
            person=cast.people["bob"],
            role=Role.MEMBER,
            group_id=group.id,
            bank_id=group.bank_id,
            region_id=group.region_id,
        )
    assert role_of(cast, "bob") is Role.MEMBER


def test_removing_asks_first(browse: Browse, cast: Cast) -> None:
    alice, path = browse("alice"), f"{PATH}/seats/{cast.seats['bob'].id}/end"
    assert path in alice.get(PATH).links
    assert "Remove Bob?" in alice.get(path).heading
    assert role_of(cast, "bob") is Role.MEMBER
    alice.press(path, path)
    assert role_of(cast, "bob") is None
    alice.post(path, status=404)


def test_two_leads_leaving_at_once_do_not_both_go(cast: Cast) -> None:
    with cast.work("alice") as work:
        seats.change_role(work, seat_id=cast.seats["bob"].id, role=Role.LEAD)
    with cast.everywhere() as work:
        live = select(Seat).where(Seat.group_id == cast.fell_group.id, Seat.ended_at.is_(None))
        cast.seats |= {
            name: seat
            for seat in work.db.scalars(live)
            for name, person in cast.people.items()
            if person.id == seat.person_id
        }

    def leave(name: str) -> bool:
        try:
            with cast.work(name) as work:
                seats.leave(work)
        except Refused:
            return False
        return True

    with ThreadPoolExecutor(2) as both:
        assert sorted(both.map(leave, ["alice", "bob"])) == [False, True]


def test_what_the_group_says_of_itself(browse: Browse, cast: Cast) -> None:
    alice, path = browse("alice"), f"{PATH}/about"
    alice.fill(path, about="Out in all weathers.", contact_name="Chair", contact_email="chair@cast.example")
    assert "Out in all weathers." in alice.get(PATH).main
    page = alice.fill(path, 422, about="x" * 2001, contact_name="")
    assert page.beside("about")
    assert page.beside("contact_name")


def test_it_has_no_other_verbs(browse: Browse, cast: Cast) -> None:
    alice = browse("alice")
    assert alice.client.post(PATH).status_code == 405
    alice.get(make(cast, "bob", "lead"), 405)
