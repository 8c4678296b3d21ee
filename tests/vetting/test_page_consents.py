"""What only a curator can decide, beside the bench: consents to collect, salvage cases, plants to verify."""

from __future__ import annotations

import pytest

from hub.protocols.actions import sign_off
from hub.sites.actions import ask_salvage
from hub.taxa.rules import CareClass
from tests.cast import Cast
from tests.sites.scene import opened
from tests.support.browser import Browse
from tests.vetting.scene import (
    TODAY,
    Scene,
    handed_in,
    set_scene,
    sheet_for,
    surveyed_population,
    wanted_taxon,
)

CONSENTS = "/bench/consents"
QUERIES = 4


@pytest.fixture
def rare(cast: Cast) -> Scene:
    """A sheet of a rare plant: it says not yet, until a curator has consented."""
    return set_scene(cast, care_class=CareClass.RARE)


def test_a_sheet_that_waits_for_a_consent_is_listed_until_it_is_given(
    cast: Cast, browse: Browse, rare: Scene
) -> None:
    cora = browse("cora")
    assert "1 consent to give or refuse" in cora.get("/bench").main
    page = cora.get(CONSENTS)
    assert len(cora.queries) == QUERIES
    for words in (rare.sheet.number, "Silene acaulis", "Fell Group", "SIL-ACA 01"):
        assert words in page.main
    assert f"/adoptions/{rare.adoption_id}/populations/{rare.population_id}/consent" in page.links
    with cast.work("cora") as work:
        sign_off(
            work,
            adoption_id=rare.adoption_id,
            population_id=rare.population_id,
            share=0.01,
            reason="Seen together.",
        )
    assert "No consent waits" in cora.get(CONSENTS).main
    assert "to give or refuse" not in cora.get("/bench").main


def test_a_plant_that_needs_none_is_not_listed(cast: Cast, browse: Browse) -> None:
    set_scene(cast)
    assert "No consent waits" in browse("cora").get(CONSENTS).main


def test_a_salvage_case_is_listed(cast: Cast, browse: Browse) -> None:
    scene = set_scene(cast)
    with cast.work("alice") as work:
        case = ask_salvage(
            work, population_id=scene.population_id, evidence="The road is staked out.", evidence_on=TODAY
        )
    cora = browse("cora")
    assert "1 salvage case to decide" in cora.get("/bench").main
    assert f"/salvage/{case.id}/decide" in cora.get(CONSENTS).links


def test_plants_that_nobody_has_verified_are_listed(cast: Cast, browse: Browse) -> None:
    cora, (_, population) = browse("cora"), opened(cast)
    way = f"/populations/{population.id}/verify"
    assert "1 population to verify" in cora.get("/bench").main
    assert way in cora.get(CONSENTS).links
    cora.fill(way, how="Seen in flower.")
    assert "to verify" not in cora.get("/bench").main
    assert "confirmed the species of every population" in cora.get(CONSENTS).main


def test_it_is_searched_filtered_sorted_and_a_file(cast: Cast, browse: Browse, rare: Scene) -> None:
    cora = browse("cora")

    def found(**asked: str) -> bool:
        return rare.sheet.number in cora.get(CONSENTS, **asked, **{"as": "csv"}).html

    assert found()
    assert found(search="fell gr")
    assert found(search="sil-aca")
    assert found(care="rare")
    assert not found(care="critical")
    assert not found(search="%")
    for order in ("oldest", "newest", "species", "species-down", "group", "group-down"):
        assert found(sort=order)
    assert "None like that" in cora.get(CONSENTS, care="critical").main


def test_it_costs_the_same_for_two_as_for_one(cast: Cast, browse: Browse) -> None:
    taxon, cora = wanted_taxon(cast, care_class=CareClass.RARE), browse("cora")
    for name in ("Scar Top", "Far Ledge"):
        sheet_for_second(cast, taxon, name)
        cora.get(CONSENTS)
        assert len(cora.queries) == QUERIES


def sheet_for_second(cast: Cast, taxon: object, name: str) -> None:
    lead = "alice" if name == "Scar Top" else "charlie"
    sheet_for(cast, taxon, surveyed_population(cast, taxon, name=name), lead)  # type: ignore[arg-type]


def test_who_may_not(cast: Cast, browse: Browse, rare: Scene) -> None:
    for name in ("alice", "bob", "tess", "olga", "stan"):
        browse(name).get(CONSENTS, status=403)
    assert rare.sheet.number not in browse("dora").get(CONSENTS).main
    assert browse().get(CONSENTS, status=302).location.startswith("/sign-in")
    browse("cora").post(CONSENTS, status=405)


def test_the_technician_is_not_asked_for_answers(cast: Cast, browse: Browse, rare: Scene) -> None:
    handed_in(cast, rare)
    assert "to give or refuse" not in browse("tess").get("/bench").main
