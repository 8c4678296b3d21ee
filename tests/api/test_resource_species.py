"""Species, their standings and the wanted list, by program."""

from __future__ import annotations

from typing import Any
from uuid import uuid4

import pytest

from tests.api.conftest import Programs
from tests.cast import Cast
from tests.vetting.scene import wanted_taxon

PLANT = {
    "scientific_name": "Gentiana verna L.",
    "family": "Gentianaceae",
    "life_form": "perennial_herb",
    "hazards": ["thorns"],
    "persistent_seed_bank": True,
    "seed_mass_mg": 0.125,
    "ripens_from": 7,
    "ripens_to": 8,
}
RARE = {
    "kind": "category",
    "text": "CR",
    "place": "Test Vale",
    "authority": "The red book",
    "as_of": "2030-01-01",
}


@pytest.fixture
def species(program: Programs) -> dict[str, Any]:
    added: dict[str, Any] = program("cora").post("/species", PLANT, 201)
    return added


def test_a_species_is_added_as_it_is_told(program: Programs, species: dict[str, Any]) -> None:
    assert {name: species[name] for name in PLANT} == PLANT
    assert species["care_class"] == "unknown"
    reader = program("bob")
    assert reader.get(f"/species/{species['id']}") == species
    assert reader.get("/species", search="gentian verna")["items"] == [species]
    assert reader.get("/species", care="secure")["items"] == []


def test_a_patch_leaves_the_rest_alone(program: Programs, species: dict[str, Any]) -> None:
    curator, path = program("cora"), f"/species/{species['id']}"
    changed = curator.change("PATCH", path, {"vernacular": "Spring gentian"})
    assert changed == species | {"vernacular": "Spring gentian"}
    wrong = curator.change("PATCH", path, {"ripens_from": None}, 422)
    assert [each["pointer"] for each in wrong["errors"]] == ["/ripens_to"]


def test_standings_are_set_whole_and_decide_the_care(program: Programs, species: dict[str, Any]) -> None:
    curator, path = program("cora"), f"/species/{species['id']}/standings"
    assert curator.get(path) == {"items": []}
    rows = curator.change("PUT", path, {"standings": [RARE]})["items"]
    assert rows == [RARE | {"permit_needed": False}]
    assert curator.get(f"/species/{species['id']}")["care_class"] == "critical"
    wrong = curator.change("PUT", path, {"standings": [RARE, RARE | {"kind": "rank", "text": "G9"}]}, 422)
    assert [each["pointer"] for each in wrong["errors"]] == ["/standings/1/text"]


def test_ecoregions_are_set_whole(program: Programs, cast: Cast, species: dict[str, Any]) -> None:
    curator, path = program("cora"), f"/species/{species['id']}/ecoregions"
    rows = curator.change("PUT", path, {"ecoregion_ids": [str(cast.meadows.id)]})["items"]
    assert [each["code"] for each in rows] == ["T.1"]
    curator.change("PUT", path, {"ecoregion_ids": [None]}, 422)
    curator.change("PUT", path, {"ecoregion_ids": [str(uuid4())]}, 422)


def test_only_curators_write_species(program: Programs, species: dict[str, Any]) -> None:
    for name in ("alice", "tess", "olga", "stan"):
        program(name).post("/species", PLANT, 403)
        program(name).send("PATCH", f"/species/{species['id']}", 403, json={})
    program().get("/species", 401)
    program("cora").get(f"/species/{uuid4()}", 404)
    twin = program("cora").post("/species", PLANT, 422)
    assert [each["pointer"] for each in twin["errors"]] == ["/scientific_name"]


def test_a_line_of_the_list_is_put_changed_and_taken_off(
    program: Programs, cast: Cast, species: dict[str, Any]
) -> None:
    curator, path = program("cora"), f"/seasons/{cast.season.id}/wanted"
    need = {"populations": 2, "ecoregion_id": str(cast.meadows.id), "district_id": None}
    line = curator.post(path, {"taxon_id": species["id"], "priority": 1, "needs": [need]}, 201)
    assert (line["needs"], line["populations"], line["groups"]) == ([need], 2, 0)
    assert program().get(path)["items"] == [line]
    one = f"{path}/{species['id']}"
    changed = curator.change("PUT", one, {"priority": 3, "needs": [{"populations": 5}]})
    assert (changed["priority"], changed["populations"]) == (3, 5)
    assert curator.change("DELETE", one, status=204) is None
    assert program().get(path)["items"] == []


def test_a_list_is_its_bank_s_own(program: Programs, cast: Cast) -> None:
    taxon = wanted_taxon(cast)
    path = f"/seasons/{cast.season.id}/wanted"
    line = {"taxon_id": str(taxon.id), "priority": 1, "needs": [{"populations": 1}]}
    program("dora").post(path, line, 404)
    program("alice").post(path, line, 403)
    wrong = program("cora").post(path, line | {"needs": [{"populations": 0}]}, 422)
    assert [each["pointer"] for each in wrong["errors"]] == ["/needs/0/populations"]
    tag = {"If-Match": program().send("GET", f"{path}/{taxon.id}").headers["ETag"]}
    program("dora").send("DELETE", f"{path}/{taxon.id}", 404, headers=tag)
