"""A site's own page, opening one, changing one, and letting groups in."""

from __future__ import annotations

from uuid import UUID

import pytest
from sqlalchemy import select

from hub.audit.models import AuditEntry
from hub.sites import queries
from hub.sites.models import Site
from hub.taxa.rules import CareClass
from tests.cast import Cast
from tests.sites.litany import (
    NOWHERE,
    Browse,
    asks_to_sign_in,
    hides_from,
    is_missing,
    keeps_its_verbs,
    opens_to,
    refuses,
)
from tests.sites.scene import a_population, a_site, opened, stored_taxon

TYPED = {
    "name": "Skarrow Pavement",
    "latitude": "47.8",
    "longitude": "-28.2",
    "radius_m": "250",
    "owner_label": "Skarrow Common office",
}


def readings(cast: Cast, site_id: UUID) -> int:
    with cast.everywhere() as work:
        found = select(AuditEntry).where(
            AuditEntry.event == "locality:read", AuditEntry.thing_id == str(site_id)
        )
        return len(work.db.scalars(found).all())


def test_the_litany(browse: Browse, cast: Cast) -> None:
    site, _ = opened(cast)
    path, change = f"/sites/{site.id}", f"/sites/{site.id}/change"
    opens_to(browse, path, ("alice", "bob", "cora", "tess"))
    opens_to(browse, change, ("alice", "cora"))
    for each in (path, change):
        hides_from(browse, each)
        asks_to_sign_in(browse, each)
    refuses(browse, change, ("bob", "tess", "olga"))
    is_missing(browse, "/sites/{}")
    is_missing(browse, "/sites/{}/change")
    keeps_its_verbs(browse, path, but=("GET",))
    browse("cora").get("/sites/not-an-id", 404)


def test_it_shows_land_plants_and_what_to_do_next(browse: Browse, cast: Cast) -> None:
    site, population = opened(cast, risks=["cliff"], risk_note="Loose after rain.")
    page = browse("alice").get(f"/sites/{site.id}")
    for words in ("Ask the owner", "cliff or steep drop", "Loose after rain.", "47.80000°", "Silene acaulis"):
        assert words in page.main
    assert f"/sites/{site.id}/letter" in page.links
    assert f"/populations/{population.id}" in page.links
    assert 'class="site-ground"' in page.html


def test_a_member_sees_no_buttons_it_may_not_press(browse: Browse, cast: Cast) -> None:
    site, _ = opened(cast, owner_email="office@estate.example")
    assert "office@estate.example" in browse("alice").get(f"/sites/{site.id}").main
    page = browse("bob").get(f"/sites/{site.id}")
    assert not [link for link in page.links if link.endswith(("/change", "/letter", "/add"))]
    assert page.actions == []
    assert "office@estate.example" not in page.main


def test_reading_a_guarded_place_is_noted_once_a_day(browse: Browse, cast: Cast) -> None:
    site, _ = opened(cast, care=CareClass.RARE)
    window = browse("alice")
    window.get(f"/sites/{site.id}")
    window.get(f"/sites/{site.id}")
    assert readings(cast, site.id) == 1
    browse("cora").get(f"/sites/{site.id}")
    assert readings(cast, site.id) == 2


def test_reading_a_common_plants_place_is_not(browse: Browse, cast: Cast) -> None:
    site, _ = opened(cast)
    browse("alice").get(f"/sites/{site.id}")
    assert readings(cast, site.id) == 0


def test_a_site_is_opened_on_a_phone(browse: Browse, cast: Cast) -> None:
    page = browse("alice").get("/sites/open")
    assert [each for each in page.all("button") if each.get("data-position-button") is not None]
    answer = browse("alice").fill(
        "/sites/open", district_id=str(cast.north.id), **TYPED, risks=["cliff", "water"]
    )
    with cast.work("alice") as work:
        site = work.db.scalars(select(Site)).one()
    assert answer.location == f"/sites/{site.id}"
    assert (site.name, site.risks) == ("Skarrow Pavement", ["cliff", "water"])
    assert site.opened_by_group_id == cast.fell_group.id


@pytest.mark.parametrize(
    ("name", "typed", "sentence"),
    [
        ("latitude", "47.5", "outside Northern Part"),
        ("latitude", "north", "decimal degrees"),
        ("radius_m", "0", "from 1 to 20,000 m"),
        ("owner_email", "nobody", "e-mail address"),
        ("outline", "{", "not GeoJSON"),
        ("outline", "[" * 100_000, "not GeoJSON"),
        ("outline", '"here"', "GeoJSON geometry"),
        ("latitude", "1e999", "decimal degrees"),
        ("longitude", "1" * 400, "decimal degrees"),
        ("outline", '{"type": "Point", "coordinates": [1, 2]}', "Polygon"),
        ("district_id", "elsewhere", "choose one"),
        ("name", " ", "fill this in"),
        ("risks", "dragons", "choose one"),
    ],
)
def test_what_cannot_be_is_said_beside_its_box(
    browse: Browse, cast: Cast, name: str, typed: str, sentence: str
) -> None:
    fields = {"district_id": str(cast.north.id), **TYPED, name: typed}
    page = browse("alice").fill("/sites/open", status=422, **fields)
    assert sentence in page.beside(name)
    assert page.typed("owner_label") == "Skarrow Common office"
    with cast.everywhere() as work:
        assert work.db.scalars(select(Site)).all() == []


def test_a_near_site_is_pointed_out(browse: Browse, cast: Cast) -> None:
    opened(cast)
    window = browse("alice")
    page = window.follow(
        window.fill("/sites/open", district_id=str(cast.north.id), **TYPED | {"latitude": "47.801"})
    )
    assert "Scar Top is only 111 m away" in page.text


def test_a_change_comes_back_filled_and_is_kept(browse: Browse, cast: Cast) -> None:
    ring = [[-28.21, 47.79], [-28.19, 47.79], [-28.19, 47.81], [-28.21, 47.81], [-28.21, 47.79]]
    site, _ = opened(cast, outline={"type": "Polygon", "coordinates": [ring]}, risks=["road"])
    window, path = browse("alice"), f"/sites/{site.id}/change"
    page = window.get(path)
    assert page.typed("latitude") == "47.8"
    assert '"Polygon"' in page.typed("outline")
    window.fill(path, habitat="scree")
    with cast.work("alice") as work:
        changed = queries.get_site(work, site.id)
        assert (changed.habitat, changed.outline, changed.risks) == ("scree", site.outline, ["road"])


def test_a_stale_change_is_sent_back(browse: Browse, cast: Cast) -> None:
    site, _ = opened(cast)
    path = f"/sites/{site.id}/change"
    browse("alice").fill(path, habitat="scree")
    page = browse("cora").fill(path, status=422, habitat="meadow", version="1")
    assert "while you were looking" in " ".join(page.problems)
    assert page.typed("habitat") == "meadow"


def test_the_bank_lets_a_group_in_and_out_again(browse: Browse, cast: Cast) -> None:
    site, _ = opened(cast, by="cora")
    window, path = browse("cora"), f"/sites/{site.id}"
    window.fill(path, action=f"{path}/share", group_id=str(cast.vale_school.id))
    browse("charlie").get(path)
    window.press(path, f"{path}/unshare")
    browse("charlie").get(path, 404)
    for name in ("alice", "tess"):
        browse(name).post(f"{path}/share", {"group_id": str(cast.vale_school.id)}, status=403)
    keeps_its_verbs(browse, f"{path}/share", but=("POST",))


def test_a_group_that_is_none_is_not_let_in(browse: Browse, cast: Cast) -> None:
    site, _ = opened(cast, by="cora")
    window, path = browse("cora"), f"/sites/{site.id}/share"
    assert "choose one of those offered" in window.follow(window.post(path, {"group_id": "nobody"})).text
    for stranger in (NOWHERE, str(cast.shore_group.id)):
        window.post(path, {"group_id": stranger}, status=404)


def test_its_questions_do_not_grow_with_its_plants(browse: Browse, cast: Cast) -> None:
    site, _ = opened(cast)
    window = browse("alice")
    window.get(f"/sites/{site.id}")
    assert len(window.queries) == 6  # the caller; site, permissions, plants, district, counts
    taxa = [stored_taxon(cast, name=f"{genus} alpina L.") for genus in ("Carex", "Poa", "Draba")]
    with cast.work("alice") as work:
        for taxon in taxa:
            a_population(work, site, taxon)
    window.get(f"/sites/{site.id}")
    assert len(window.queries) == 6


def test_an_empty_site_says_what_to_do(browse: Browse, cast: Cast) -> None:
    with cast.work("alice") as work:
        site = a_site(work, cast)
    assert "No plants noted yet" in browse("alice").get(f"/sites/{site.id}").main


def test_silence_about_a_site_is_no_no(browse: Browse, cast: Cast) -> None:
    site, _ = opened(cast, risks=None, protected_area=None)
    window, change = browse("alice"), f"/sites/{site.id}/change"
    assert "Nobody has said what is dangerous here" in window.get(f"/sites/{site.id}").text
    for typed, kept in (({}, (None, None)), ({"risks": ["none"], "protected_area": "no"}, ([], False))):
        window.fill(change, habitat="scree", **typed)
        with cast.work("alice") as work:
            changed = queries.get_site(work, site.id)
            assert (changed.risks, changed.protected_area) == kept
    assert "No dangers are noted" in window.get(f"/sites/{site.id}").text
    assert window.fill(change, 422, risks=["none", "cliff"]).beside("risks")
