"""A bank's own page: its ways are a curator's to set, its staff a curator's to invite."""

from __future__ import annotations

import pytest
from sqlalchemy import select

from hub.audit.models import AuditEntry
from hub.groups.models import Bank, Seat
from hub.groups.rules import AdoptionMode
from tests.cast import Cast
from tests.support.browser import Browse
from tests.support.letters import letters_to

WAYS = "/bank/settings"


def bank(cast: Cast) -> Bank:
    with cast.everywhere() as work:
        return work.db.get_one(Bank, cast.fell_bank.id)


def test_it_shows_ways_and_staff(browse: Browse) -> None:
    window = browse("cora")
    page = window.get("/bank")
    assert "3 groups" in page.main
    assert "not allowed" in page.main
    assert "Tess" in page.main
    assert "Alice" not in page.html
    assert "Dora" not in page.html
    assert len(window.queries) == 4  # the caller, the bank, the staff, the invitations


def test_its_ways_can_be_set(browse: Browse, cast: Cast) -> None:
    window = browse("cora")
    window.fill(
        WAYS,
        adoption_mode="automatic",
        groups_per_species="2",
        home_freezing="yes",
        law_note="Ask the ranger first.",
        zone="Europe/Dublin",
    )
    now = bank(cast)
    assert now.adoption_mode is AdoptionMode.AUTOMATIC
    assert (now.groups_per_species, now.adoptions_per_group, now.home_freezing) == (2, 4, True)
    assert "Ask the ranger first." in window.get("/bank").main
    with cast.everywhere() as work:
        event = work.db.scalars(select(AuditEntry).where(AuditEntry.event == "bank:changed")).one()
        assert event.before["groups_per_species"] == 3
        assert event.after["groups_per_species"] == 2
        assert "adoptions_per_group" not in event.after


def test_home_freezing_can_be_switched_off_again(browse: Browse, cast: Cast) -> None:
    window = browse("cora")
    window.fill(WAYS, home_freezing="yes")
    window.fill(WAYS, home_freezing="")
    assert bank(cast).home_freezing is False


@pytest.mark.parametrize(
    ("box", "typed", "says"),
    [
        ("groups_per_species", "0", "1 to 999"),
        ("adoptions_per_group", "", "fill this in"),
        ("zone", "Europe/Halverin", "time zone"),
        ("zone", "../../etc/passwd", "time zone"),
        ("email", "bank", "e-mail address"),
        ("law_note", "x" * 4001, "at most 4,000"),
    ],
)
def test_it_says_what_is_wrong_and_changes_nothing(
    browse: Browse, cast: Cast, box: str, typed: str, says: str
) -> None:
    page = browse("cora").fill(WAYS, 422, **{"law_note": "kept?", box: typed})
    assert says in page.beside(box)
    assert page.typed(box) == typed
    assert bank(cast).law_note == ""


def test_a_way_that_is_not_offered_is_refused(browse: Browse, cast: Cast) -> None:
    page = browse("cora").fill(WAYS, 422, adoption_mode="lottery")
    assert "one of those offered" in page.beside("adoption_mode")
    assert bank(cast).adoption_mode is AdoptionMode.CURATOR


def test_staff_is_invited_and_removed(browse: Browse, cast: Cast) -> None:
    cora = browse("cora")
    cora.fill("/bank/invite", email="lab@bank.example", role="technician")
    assert "technician, Fell Bank" in letters_to(cast, "lab@bank.example")[0].body
    (withdraw,) = [each for each in cora.get("/bank").actions if each.endswith("/withdraw")]
    browse("dora").post(withdraw, status=404)
    cora.press("/bank", withdraw)
    path = f"/bank/staff/{cast.seats['tess'].id}/end"
    browse("dora").get(path, 404)
    browse("dora").post(path, status=404)
    cora.press(path, path)
    browse("tess").get("/bank", 403)
    with cast.everywhere() as work:
        assert work.db.get_one(Seat, cast.seats["tess"].id).ended_at is not None


def test_the_last_curator_stays_and_group_seats_are_not_staff(browse: Browse, cast: Cast) -> None:
    cora = browse("cora")
    cora.post(f"/bank/staff/{cast.seats['cora'].id}/end", status=409)
    cora.post(f"/bank/staff/{cast.seats['alice'].id}/end", status=404)
    browse("cora").get("/bank")
    browse("alice").get("/our-group")


def test_leads_cannot_be_invited_as_staff(browse: Browse) -> None:
    page = browse("cora").post("/bank/invite", {"email": "a@b.example", "role": "lead"}, 422)
    assert "does not invite" in page.beside("role")


@pytest.mark.parametrize("name", ["alice", "tess", "olga", "stan"])
def test_others_may_not(browse: Browse, name: str) -> None:
    window = browse(name)
    for path in ("/bank", WAYS, "/bank/invite"):
        window.get(path, 403)
    window.post(WAYS, {"home_freezing": "yes"}, 403)


def test_visitors_and_verbs(browse: Browse) -> None:
    assert "/sign-in" in browse().get("/bank", 302).location
    assert browse("cora").client.post("/bank").status_code == 405
    assert browse("cora").client.delete(WAYS).status_code == 405


def test_the_time_zone_is_chosen_from_a_list_that_keeps_an_older_name(browse: Browse, cast: Cast) -> None:
    with cast.everywhere() as work:
        work.db.get_one(Bank, cast.fell_bank.id).zone = "GB"
    zones = [each.get("value") for each in browse("cora").get(WAYS).all("option")]
    assert {"UTC", "GB", "Europe/Dublin", "Pacific/Auckland"} <= set(zones)
    assert not {"Eire", "EST5EDT", "posixrules"} & set(zones)
    browse("cora").fill(WAYS, zone="Pacific/Auckland")
    assert bank(cast).zone == "Pacific/Auckland"
