"""The list of species, a species for those who work with it, and a plant for visitors."""

from __future__ import annotations

from datetime import date
from uuid import uuid4

import pytest

from hub.taxa import actions
from hub.taxa.models import StandingKind
from tests.taxa.garden import ARNICA, list_of, plant

LIST_QUERIES = 3  # who is asking, ecoregions, species
SHOW_QUERIES = 6  # who is asking, the species, its standings, its ecoregions, the map, the lists


def described(cast):
    (taxon,) = plant(
        cast,
        ARNICA,
        vernacular="Wolf’s bane",
        family="Compositae",
        hazards=["toxic", "irritant_sap"],
        storage="orthodox",
        storage_evidence="memory",
        flowers_from=5,
        ripens_from=11,
        ripens_to=1,
        seed_mass_mg=1.25,
        note="One\ntwo",
    )
    with cast.work("cora") as work:
        rank = actions.StandingGiven(StandingKind.RANK, "S2", "Test Vale", "Test Survey", date(2030, 5, 1))
        actions.set_standings(work, taxon_id=taxon.id, standings=[rank])
        actions.set_ecoregions(work, taxon_id=taxon.id, ecoregion_ids=[cast.meadows.id])
    return taxon


@pytest.mark.parametrize("name", ["alice", "bob", "cora", "tess", "olga", "stan", "eve"])
def test_the_list_works_for_everybody_signed_in(browse, cast, name):
    taxon = described(cast)
    page = browse(name).get("/species")
    assert "Arnica montana Wolf’s bane" in page.main
    assert f"/species/{taxon.id}" in page.links
    assert ("/species/new" in page.links) is (name == "cora")


def test_visitors_are_asked_to_sign_in(browse, cast):
    taxon = described(cast)
    for path in ("/species", f"/species/{taxon.id}"):
        assert "/sign-in?next=" in browse().get(path, 302).location


@pytest.mark.parametrize(
    ("query", "there"),
    [
        ({"search": "asteraceae"}, True),
        ({"search": "wolf bane"}, True),
        ({"search": "carex"}, False),
        ({"care": "rare"}, True),
        ({"care": "secure"}, False),
        ({"storage": "orthodox"}, True),
        ({"storage": "recalcitrant"}, False),
        ({"difficulty": "hard"}, False),
        ({"school": "yes"}, False),
        ({"sort": "care"}, True),
        ({"sort": "family"}, True),
        ({"sort": "ripening"}, True),
        ({"ecoregion": "meadows"}, True),
        ({"ecoregion": str(uuid4())}, False),
        ({"at": ""}, True),
    ],
)
def test_the_list_can_be_narrowed(browse, cast, query, there):
    described(cast)
    if query.get("ecoregion") == "meadows":
        query = {"ecoregion": str(cast.meadows.id)}
    assert ("Arnica montana" in browse("alice").get("/species", **query).main) is there


def test_a_torn_page_address_is_refused(browse, cast):
    browse("alice").get("/species", 400, at="torn")


def test_the_list_as_csv(browse, cast):
    described(cast)
    text = browse("alice").get("/species", **{"as": "csv"}).answer.data.decode("utf-8-sig")
    assert text.splitlines()[1].startswith("Arnica montana L.,Wolf’s bane,Asteraceae,rare,")


def test_an_empty_list_says_what_to_do(browse, cast):
    assert "/species/new" in browse("cora").get("/species").links
    assert "A curator adds them" in browse("alice").get("/species").main


def test_a_species_tells_all_with_its_reasons(browse, cast):
    taxon = described(cast)
    page = browse("alice").get(f"/species/{taxon.id}")
    for words in (
        "Its rank is S2: rare.",
        "Test Survey",
        "1 May 2030",
        "from memory: not checked",
        "poisonous if eaten",
        "Flowers from May · Ripe November to January",
        "1.25 mg",
        "T.1 Meadows",
        "On no list yet",
    ):
        assert words in page.main, words
    assert not any(link.endswith("/edit") for link in page.links)
    assert f"/species/{taxon.id}/edit" in browse("cora").get(f"/species/{taxon.id}").links


def test_the_strip_marks_the_months_over_the_new_year(browse, cast):
    taxon = described(cast)
    drawn = browse("alice").get(f"/species/{taxon.id}").tree.iter()
    kinds = [each.get("class") or "" for each in drawn]
    boxes = [kind for kind in kinds if kind in ("year-box", "year-ripe")]
    assert [at for at, kind in enumerate(boxes, start=1) if kind == "year-ripe"] == [1, 11, 12]


def test_a_plant_is_for_visitors_and_tells_no_place(browse, cast):
    (other,) = list_of(cast, "Silene acaulis (L.) Jacq.")
    taxon = described(cast)
    page = browse().get(f"/plants/{taxon.id}")
    for words in ("Wolf’s bane", "poisonous if eaten", "Do not collect on your own", "owner’s permission"):
        assert words in page.main, words
    assert "Meadows" not in page.main
    assert "seed of 2 populations" in browse().get(f"/plants/{other.id}").main


def test_what_is_not_there_is_not_found(browse, cast):
    described(cast)
    for path in (f"/plants/{uuid4()}", f"/species/{uuid4()}", f"/species/{cast.season.id}"):
        browse("alice").get(path, 404)


def test_pages_are_only_read(browse, cast):
    taxon = described(cast)
    for path in ("/species", f"/species/{taxon.id}", f"/plants/{taxon.id}"):
        browse("cora").post(path, status=405)


def test_the_number_of_queries_does_not_grow(browse, cast):
    taxon, window = described(cast), browse("alice")
    plant(cast, *[f"Carex {letter}lba" for letter in "abcdefgh"])
    window.get("/species")
    assert len(window.queries) == LIST_QUERIES
    window.get(f"/species/{taxon.id}")
    assert len(window.queries) == SHOW_QUERIES
