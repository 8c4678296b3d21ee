"""One group before its bank: taken in, declined, closed, opened again, given a new lead."""

from __future__ import annotations

from uuid import UUID

import pytest
from sqlalchemy import select

from hub.audit.models import AuditEntry
from hub.groups.models import Group, Invitation, Seat
from hub.groups.rules import GroupKind, GroupState
from tests.cast import Cast, group_of
from tests.support.browser import Browse
from tests.support.letters import letters_to

CONTACT = "tfr@cast.example"


def asking(cast: Cast) -> str:
    """The path of a group that asks to join the Fell Bank."""
    with cast.everywhere() as work:
        group = group_of(cast.fell_bank, cast.north, "Tarn Friends", "TFR", GroupKind.CLUB, cast.now)
        group.state = GroupState.ASKED
        work.db.add(group)
    return f"/groups/{group.id}"


def state_of(cast: Cast, path: str) -> GroupState:
    with cast.everywhere() as work:
        return work.db.scalars(select(Group.state).where(Group.id == UUID(path.rpartition("/")[2]))).one()


def test_taking_in_invites_the_contact_to_lead(browse: Browse, cast: Cast) -> None:
    path, window = asking(cast), browse("cora")
    assert len(window.get(path).links) > 0
    assert len(window.queries) == 6  # the caller, the group, its bank, district, members, invitations
    page = window.follow(window.press(path, f"{path}/approve"))
    assert "active" in page.main
    assert "invitations/" in letters_to(cast, CONTACT)[0].body
    with cast.everywhere() as work:
        event = work.db.scalars(select(AuditEntry).where(AuditEntry.event == "group:moved")).one()
        assert (event.before, event.after) == ({"state": "asked"}, {"state": "active"})
        assert event.person_id == cast.people["cora"].id


def test_declining_needs_a_reason_and_tells_it(browse: Browse, cast: Cast) -> None:
    path, window = asking(cast), browse("cora")
    page = window.fill(path, 422, f"{path}/decline", reason=" ")
    assert page.beside("reason")
    assert state_of(cast, path) is GroupState.ASKED
    window.fill(path, 303, f"{path}/decline", reason="No botanist is free this season.")
    assert state_of(cast, path) is GroupState.DECLINED
    assert "No botanist is free this season." in letters_to(cast, CONTACT)[0].body


def test_closing_ends_seats_and_invitations_and_can_be_undone(browse: Browse, cast: Cast) -> None:
    path = f"/groups/{cast.fell_group.id}"
    alice, cora = browse("alice"), browse("cora")
    alice.fill("/our-group/invite", email="new@cast.example", role="member")
    cora.fill(path, 303, f"{path}/close", reason="The club has ended.")
    alice.get("/our-group", 403)
    with cast.everywhere() as work:
        assert (
            work.db.scalars(
                select(Seat).where(Seat.group_id == cast.fell_group.id, Seat.ended_at.is_(None))
            ).all()
            == []
        )
        assert work.db.scalars(select(Invitation.withdrawn_at)).one() is not None
    cora.press(path, f"{path}/approve")
    assert state_of(cast, path) is GroupState.ACTIVE
    assert "invitations/" in letters_to(cast, "flg@cast.example")[-1].body


def test_a_lead_can_be_invited_anew(browse: Browse, cast: Cast) -> None:
    path, window = f"/groups/{cast.fell_group.id}", browse("cora")
    window.fill(f"{path}/invite-lead", email="heir@cast.example")
    assert "heir@cast.example, to be group lead" in window.get(path).main
    asked = asking(cast)
    window.fill(f"{asked}/invite-lead", 422, email="heir@cast.example")


@pytest.mark.parametrize("verb", ["approve", "decline", "close"])
def test_a_move_that_is_not_there_is_refused(browse: Browse, cast: Cast, verb: str) -> None:
    path, window = asking(cast), browse("cora")
    if verb == "close":
        assert "asks to join" in " ".join(window.post(f"{path}/{verb}", {"reason": "x"}, 422).problems)
        return
    window.press(path, f"{path}/approve")
    status = {"approve": 409, "decline": 422}[verb]
    assert (
        "active" in window.post(f"{path}/{verb}", {"reason": "x"} if verb == "decline" else {}, status).main
    )
    assert state_of(cast, path) is GroupState.ACTIVE


VERBS = ("approve", "decline", "close", "invite-lead")


def test_strangers_and_insiders(browse: Browse, cast: Cast) -> None:
    path = asking(cast)
    dora, missing = browse("dora"), "/groups/00000000-0000-4000-8000-000000000000"
    dora.get(path, 404)
    for verb in VERBS:
        dora.post(f"{path}/{verb}", {"reason": "mine now", "email": "a@b.example"}, 404)
        browse("alice").post(f"{path}/{verb}", {"reason": "mine now"}, 403)
        browse("cora").post(f"{missing}/{verb}", {"reason": "mine now", "email": "a@b.example"}, 404)
    browse("alice").get(path, 403)
    browse("cora").get(missing, 404)
    assert state_of(cast, path) is GroupState.ASKED


def test_a_steward_may_answer_too(browse: Browse, cast: Cast) -> None:
    path = asking(cast)
    browse("stan").press(path, f"{path}/approve")
    assert state_of(cast, path) is GroupState.ACTIVE


def test_it_has_no_other_verbs(browse: Browse, cast: Cast) -> None:
    path = asking(cast)
    browse("cora").get(f"{path}/approve", 405)
    assert browse("cora").client.delete(path).status_code == 405
