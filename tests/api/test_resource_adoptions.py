"""Adoptions by program: asked for, answered, given back; populations held and let go."""

from __future__ import annotations

from typing import Any
from uuid import uuid4

import pytest

from hub.taxa.queries import get
from tests.api.conftest import Programs
from tests.cast import Cast
from tests.vetting.scene import set_scene, surveyed_population, wanted_taxon


@pytest.fixture
def wish(cast: Cast) -> dict[str, Any]:
    """What Alice's program asks for."""
    taxon = wanted_taxon(cast)
    named = {"season_id": cast.season.id, "taxon_id": taxon.id, "district_id": cast.north.id}
    return {name: str(value) for name, value in named.items()} | {"wish": "We know this hill."}


def test_a_species_is_asked_for_and_granted(program: Programs, wish: dict[str, Any]) -> None:
    lead, curator = program("alice"), program("cora")
    answer = lead.send("POST", "/adoptions", 201, json=wish, headers={"Idempotency-Key": "one"})
    adoption = answer.json
    assert (adoption["state"], adoption["stage"], adoption["group"]) == (
        "requested",
        "asked",
        "Fell Group",
    )
    assert lead.get(answer.headers["Location"]) == adoption
    accepted = curator.post(f"/adoptions/{adoption['id']}/accept", {"reason": "Welcome."})
    assert (accepted["state"], accepted["stage"]) == ("active", "adopted")
    assert curator.get("/adoptions", state="active")["items"] == [accepted]
    assert curator.get("/adoptions", state="declined")["items"] == []


def test_the_same_request_twice_is_one_adoption(program: Programs, wish: dict[str, Any]) -> None:
    lead = program("alice")
    first = lead.post("/adoptions", wish, 201, key='"a quoted key"')
    assert lead.post("/adoptions", wish, 201, key="a quoted key") == first
    assert len(lead.get("/adoptions")["items"]) == 1
    other = lead.post("/adoptions", wish | {"wish": "Another."}, 422, key="a quoted key")
    assert "another request" in other["detail"]


def test_every_move_answers_with_the_adoption(program: Programs, cast: Cast) -> None:
    adoption_id = set_scene(cast).adoption_id
    curator, lead = program("cora"), program("alice")
    moves = [(curator, "suspend", "suspended"), (curator, "resume", "active"), (lead, "release", "released")]
    for who, verb, state in moves:
        assert who.post(f"/adoptions/{adoption_id}/{verb}", {"reason": "So."})["state"] == state
    refused = lead.post(f"/adoptions/{adoption_id}/release", {"reason": ""}, 409)
    assert "released" in refused["detail"]


def test_populations_are_held_and_let_go(program: Programs, cast: Cast) -> None:
    scene, lead = set_scene(cast), program("alice")
    path = f"/adoptions/{scene.adoption_id}/populations"
    assert [each["id"] for each in lead.get(path)["items"]] == [str(scene.population_id)]
    here = f"{path}/{scene.population_id}"
    assert lead.send("DELETE", here, 428)
    assert lead.send("DELETE", here, 412, headers={"If-Match": '"old"'})
    assert lead.change("DELETE", here, of=path) == {"items": []}
    held = lead.post(path, {"population_id": str(scene.population_id)})
    assert [each["code"] for each in held["items"]] == ["SIL-ACA 01"]


def test_strangers_find_nothing(program: Programs, cast: Cast) -> None:
    adoption_id = set_scene(cast).adoption_id
    for stranger in ("charlie", "eve", "dora"):
        assert program(stranger).get(f"/adoptions/{adoption_id}", 404)
        assert program(stranger).get("/adoptions")["items"] == []
    assert program("charlie").post(f"/adoptions/{adoption_id}/release", {}, 404)


def test_readers_may_not_decide(program: Programs, cast: Cast) -> None:
    adoption_id = set_scene(cast).adoption_id
    assert program("bob").get(f"/adoptions/{adoption_id}")
    program("bob").post(f"/adoptions/{adoption_id}/release", {}, 403)
    program("alice").post(f"/adoptions/{adoption_id}/suspend", {"reason": "no"}, 403)
    program("olga").get("/adoptions", 403)
    program().get("/adoptions", 401)


def test_what_is_wrong_is_named(program: Programs, wish: dict[str, Any]) -> None:
    lead = program("alice")
    wrong = lead.post("/adoptions", {"taxon_id": "silene", "shoe/size": 4, "wish": "\x00"}, 422)
    pointers = {each["pointer"]: each["detail"] for each in wrong["errors"]}
    assert set(pointers) == {"/taxon_id", "/season_id", "/district_id", "/shoe~1size", "/wish"}
    elsewhere = lead.post("/adoptions", wish | {"district_id": str(uuid4())}, 422)
    assert elsewhere["errors"][0]["pointer"] == "/district_id"


def test_a_population_of_a_strange_site_cannot_be_held(program: Programs, cast: Cast) -> None:
    scene = set_scene(cast)
    with cast.everywhere() as work:
        taxon = get(work, scene.taxon_id)
    other = surveyed_population(cast, taxon, name="Far Scar")
    program("alice").post(
        f"/adoptions/{scene.adoption_id}/populations", {"population_id": str(other.id)}, 404
    )
