"""The steward's page: regions, banks, and who is asked to run them."""

from __future__ import annotations

import pytest
from sqlalchemy import select

from hub.audit.models import AuditEntry
from hub.groups.models import Bank, District, Region
from tests.cast import Cast
from tests.support.browser import Browse
from tests.support.letters import letters_to, link_in

BANK = {"name": "Moor Bank", "code": "MOOR", "email": "moor@bank.example", "zone": "UTC"}
GOOD = "granite kestrels over a quiet tarn"


def test_it_shows_regions_banks_and_people(browse: Browse) -> None:
    window = browse("stan")
    page = window.get("/hub")
    for words in ("Test Vale", "Fell Bank", "Far Bank", "Olga", "Cora", "the whole hub"):
        assert words in page.main
    assert len(window.queries) == 6  # the caller, regions, banks, people, invitations, districts


def test_a_hub_grows_from_region_to_curator(browse: Browse, cast: Cast) -> None:
    stan = browse("stan")
    stan.fill("/hub/regions/new", name="Second Vale", code="SV")
    with cast.everywhere() as work:
        region = work.db.scalars(select(Region).where(Region.code == "SV")).one()
    page = stan.fill("/hub/banks/new", **BANK, region=str(region.id))
    form = stan.follow(page)
    with cast.everywhere() as work:
        bank = work.db.scalars(select(Bank).where(Bank.code == "MOOR")).one()
    assert form.typed("place") == str(bank.id)
    stan.fill(page.location, email="first@bank.example")
    link, window = link_in(letters_to(cast, "first@bank.example")[0]), browse()
    window.fill(link, name="First Curator", password=GOOD)
    assert "Moor Bank" in window.get("/bank").heading
    with cast.everywhere() as work:
        events = set(work.db.scalars(select(AuditEntry.event)))
    assert {"region:made", "bank:made", "invitation:sent", "account:opened", "seat:taken"} <= events


SQUARE = '{"type": "Polygon", "coordinates": [[[-28, 47], [-27, 47], [-27, 48], [-28, 48], [-28, 47]]]}'


def test_a_district_is_added_and_offered_to_groups(browse: Browse, cast: Cast) -> None:
    path = f"/hub/regions/{cast.region.id}/districts/new"
    browse("stan").fill(path, name="Eastern Part", code="EAST", geometry=SQUARE)
    assert "Eastern Part (Test Vale)" in browse().get("/join").main
    browse("cora").get(path, 403)
    browse("stan").get("/hub/regions/00000000-0000-4000-8000-000000000000/districts/new", 404)


@pytest.mark.parametrize(
    ("box", "typed", "says"),
    [
        ("geometry", "not JSON", "not GeoJSON"),
        ("geometry", "[" * 100_000, "not GeoJSON"),
        ("geometry", '{"type": "Point", "coordinates": [-28, 47]}', "Polygon"),
        ("geometry", "", "fill this in"),
        ("code", "NORTH", "is taken"),
    ],
)
def test_a_district_that_cannot_be_added(browse: Browse, cast: Cast, box: str, typed: str, says: str) -> None:
    with cast.everywhere() as work:
        work.db.get_one(District, cast.north.id).code = "NORTH"
    path = f"/hub/regions/{cast.region.id}/districts/new"
    fields = {"name": "Eastern Part", "code": "EAST", "geometry": SQUARE, box: typed}
    page = browse("stan").post(path, fields, 422)
    assert says in page.beside(box)
    assert page.typed(box) == typed


def test_a_coordinator_is_invited_for_a_region(browse: Browse, cast: Cast) -> None:
    browse("stan").fill("/hub/invite/coordinator", email="co@region.example", place=str(cast.region.id))
    assert "coordinator, Test Vale" in letters_to(cast, "co@region.example")[0].body


def test_another_steward_takes_over(browse: Browse, cast: Cast) -> None:
    stan = browse("stan")
    stan.post(f"/hub/officers/{cast.seats['stan'].id}/end", status=409)
    stan.fill("/hub/invite/steward", email="heir@cast.example")
    link, heir = link_in(letters_to(cast, "heir@cast.example")[0]), browse()
    heir.fill(link, name="Heir", password=GOOD)
    path = f"/hub/officers/{cast.seats['stan'].id}/end"
    assert path in heir.get("/hub").links
    heir.press(path, path)
    stan.get("/hub", 403)


def test_an_invitation_can_be_withdrawn(browse: Browse, cast: Cast) -> None:
    stan = browse("stan")
    stan.fill("/hub/invite/curator", email="first@bank.example", place=str(cast.far_bank.id))
    (withdraw,) = [each for each in stan.get("/hub").actions if each.endswith("/withdraw")]
    browse("cora").post(withdraw, status=403)
    stan.press("/hub", withdraw)
    browse().get(link_in(letters_to(cast, "first@bank.example")[0]), 410)


@pytest.mark.parametrize(
    ("path", "fields", "box", "says"),
    [
        ("/hub/regions/new", {"name": "X", "code": "TST"}, "code", "is taken"),
        ("/hub/regions/new", {"name": "X", "code": "low"}, "code", "capital letters"),
        ("/hub/regions/new", {"name": "", "code": "OK"}, "name", "fill this in"),
        ("/hub/banks/new", {**BANK, "region": ""}, "region", "fill this in"),
        ("/hub/banks/new", {**BANK, "region": "00000000-0000-4000-8000-000000000000"}, "region", "regions"),
        ("/hub/banks/new", {**BANK, "zone": "Mars/Olympus"}, "zone", "time zone"),
        ("/hub/invite/curator", {"email": "a@b.example", "place": ""}, "place", "choose the bank"),
        ("/hub/invite/coordinator", {"email": "a@b.example"}, "place", "choose the region"),
        ("/hub/invite/steward", {"email": "a"}, "email", "e-mail address"),
    ],
)
def test_it_says_what_is_wrong(
    browse: Browse, path: str, fields: dict[str, str], box: str, says: str
) -> None:
    assert says in browse("stan").post(path, fields, 422).beside(box)


@pytest.mark.parametrize("name", ["alice", "cora", "tess", "olga"])
def test_others_may_not(browse: Browse, name: str) -> None:
    window = browse(name)
    for path in ("/hub", "/hub/regions/new", "/hub/banks/new", "/hub/invite/curator"):
        window.get(path, 403)
    window.post("/hub/regions/new", {"name": "Mine", "code": "MINE"}, 403)


def test_visitors_missing_things_and_verbs(browse: Browse) -> None:
    assert "/sign-in" in browse().get("/hub", 302).location
    stan = browse("stan")
    stan.get("/hub/invite/king", 404)
    stan.get("/hub/officers/00000000-0000-4000-8000-000000000000/end", 404)
    stan.post("/hub/invitations/00000000-0000-4000-8000-000000000000/withdraw", status=404)
    assert stan.client.post("/hub").status_code == 405
