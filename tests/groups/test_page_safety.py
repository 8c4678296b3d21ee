"""The day a phone or a laptop is lost: those who run the bank or the hub can help, and nobody else."""

from __future__ import annotations

from datetime import timedelta

import pytest
from sqlalchemy import select

from hub.accounts.models import Letter
from hub.audit.models import AuditEntry
from hub.groups.models import Seat
from hub.rights.scope import Role
from tests.accounts.phone import set_up
from tests.cast import PASSWORD, Cast
from tests.support.browser import Browse

REASON = "Phone lost on the moor; I spoke with her."


def path(cast: Cast, name: str, end: str = "sign-in") -> str:
    return f"/seats/{cast.seats[name].id}/{end}"


@pytest.mark.parametrize(
    ("carer", "lost"), [("cora", "tess"), ("cora", "alice"), ("stan", "cora"), ("stan", "olga")]
)
def test_it_is_taken_off_with_a_reason_that_its_owner_reads(
    browse: Browse, cast: Cast, carer: str, lost: str
) -> None:
    theirs = browse(lost)
    set_up(theirs)
    window = browse(carer)
    page = window.fill(path(cast, lost), action=path(cast, lost, "second-step/off"), reason=REASON)
    assert "off" in window.follow(page).main
    theirs.get("/account", 302)
    browse().fill("/sign-in", email=f"{lost}@cast.example", password=PASSWORD)
    with cast.everywhere() as work:
        entry = work.db.scalars(
            select(AuditEntry).where(AuditEntry.event == "account:second-factor-reset")
        ).one()
        assert (entry.person_id, entry.reason) == (cast.people[carer].id, REASON)
        letters = work.db.scalars(select(Letter.body).where(Letter.to == f"{lost}@cast.example")).all()
        assert any(REASON in body and cast.people[carer].name in body for body in letters)


def test_sessions_of_a_lost_laptop_end(browse: Browse, cast: Cast) -> None:
    theirs, window = browse("tess"), browse("cora")
    window.press(path(cast, "tess"), path(cast, "tess", "sessions/end"))
    theirs.get("/account", 302)
    window.get("/account")


def test_it_needs_a_reason(browse: Browse, cast: Cast) -> None:
    set_up(browse("tess"))
    off = path(cast, "tess", "second-step/off")
    page = browse("cora").fill(path(cast, "tess"), 422, off, reason=" ")
    assert page.beside("reason")


def test_nobody_helps_themselves(browse: Browse, cast: Cast) -> None:
    window = browse("cora")
    set_up(window)
    assert "This is you" in window.get(path(cast, "cora")).main
    window.post(path(cast, "cora", "second-step/off"), {"reason": REASON}, 422)
    assert "on since" in window.get("/account").main


def test_one_bank_does_not_decide_over_another_s_people(browse: Browse, cast: Cast) -> None:
    """Tess gets a seat in the Far Bank as well: now neither bank alone may take off her second step."""
    with cast.everywhere() as work:
        second = Seat(
            person_id=cast.people["tess"].id,
            role=Role.TECHNICIAN,
            bank_id=cast.far_bank.id,
            since=work.now + timedelta(minutes=1),
        )
        work.db.add(second)
    set_up(browse("tess"))
    for carer, seat_id in (("cora", cast.seats["tess"].id), ("dora", second.id)):
        window = browse(carer)
        window.get(f"/seats/{seat_id}/sign-in", 404)
        window.post(f"/seats/{seat_id}/second-step/off", {"reason": REASON}, 404)
        window.post(f"/seats/{seat_id}/sessions/end", status=404)
    browse("stan").post(f"/seats/{second.id}/second-step/off", {"reason": REASON})


@pytest.mark.parametrize("stranger", ["dora", "stan's own"])
def test_a_stranger_finds_nothing(browse: Browse, cast: Cast, stranger: str) -> None:
    window, seat = (browse("dora"), "tess") if stranger == "dora" else (browse("cora"), "stan")
    window.get(path(cast, seat), 404)
    window.post(path(cast, seat, "second-step/off"), {"reason": REASON}, 404)
    window.post(path(cast, seat, "sessions/end"), status=404)


@pytest.mark.parametrize("reader", ["alice", "bob", "tess", "olga"])
def test_it_is_not_for_others(browse: Browse, cast: Cast, reader: str) -> None:
    window = browse(reader)
    window.get(path(cast, "tess"), 403)
    window.post(path(cast, "tess", "second-step/off"), {"reason": REASON}, 403)
    window.post(path(cast, "tess", "sessions/end"), status=403)


def test_where_nothing_is_on_there_is_nothing_to_take_off(browse: Browse, cast: Cast) -> None:
    window = browse("cora")
    window.post(path(cast, "tess", "second-step/off"), {"reason": REASON}, 422)
    window.get(path(cast, "tess", "second-step/off"), 405)
    window.get("/seats/00000000-0000-4000-8000-000000000000/sign-in", 404)


def test_the_way_there_stands_beside_each_name(browse: Browse, cast: Cast) -> None:
    assert path(cast, "tess") in browse("cora").get("/bank").links
    assert path(cast, "alice") in browse("cora").get(f"/groups/{cast.fell_group.id}").links
    assert path(cast, "olga") in browse("stan").get("/hub").links
