"""Regions, districts, ecoregions, banks and seasons: open to every program; seasons kept by curators."""

from __future__ import annotations

from tests.api.conftest import Programs
from tests.cast import Cast

DAYS = {"opens_on": "2032-03-01", "closes_on": "2032-11-30", "lapses_on": "2032-09-01"}


def test_places_are_public(program: Programs, cast: Cast) -> None:
    visitor, region = program(), str(cast.region.id)
    assert visitor.get("/regions")["items"] == [{"id": region, "code": "TST", "name": "Test Vale"}]
    assert [each["code"] for each in visitor.get("/banks", region_id=region)["items"]] == ["FAR", "FELL"]
    names = [each["name"] for each in visitor.get("/districts", region_id=region)["items"]]
    assert names == ["Northern Part", "Southern Part"]
    assert visitor.get("/districts", region_id=str(cast.north.id))["items"] == []
    outlined = visitor.get(f"/districts/{cast.north.id}")
    assert outlined["geometry"]["type"] == "Polygon"
    assert visitor.get("/ecoregions", search="meadow")["items"][0]["code"] == "T.1"
    assert visitor.get(f"/ecoregions/{cast.meadows.id}")["geometry"]["type"] == "Polygon"
    assert visitor.get(f"/districts/{cast.meadows.id}", 404)


def test_seasons_are_opened_and_moved_by_their_bank(program: Programs, cast: Cast) -> None:
    curator = program("cora")
    opened = curator.post("/seasons", {"year": 2032, **DAYS}, 201)
    assert opened == program().get(f"/seasons/{opened['id']}")
    path = f"/seasons/{opened['id']}"
    moved = curator.change("PATCH", path, {"closes_on": "2032-12-15"})
    assert moved == opened | {"closes_on": "2032-12-15"}
    wrong = curator.change("PATCH", path, {"closes_on": "2031-12-15"}, 422)
    assert [each["pointer"] for each in wrong["errors"]] == ["/closes_on"]
    years = [each["year"] for each in program().get("/seasons", bank_id=str(cast.fell_bank.id))["items"]]
    assert years == [2032, 2031]


def test_only_the_own_curator_keeps_a_season(program: Programs, cast: Cast) -> None:
    path = f"/seasons/{cast.season.id}"
    tag = {"If-Match": program().send("GET", path).headers["ETag"]}
    for name, status in (("dora", 404), ("alice", 403), ("tess", 403), (None, 401)):
        program(name).send("PATCH", path, status, json={"closes_on": "2031-12-01"}, headers=tag)
    program("alice").post("/seasons", {"year": 2032, **DAYS}, 403)
    program("cora").post("/seasons", {"year": 2031, **DAYS}, 422)


def test_who_a_key_acts_for(program: Programs, cast: Cast) -> None:
    told = program("cora").get("/me")
    assert (told["name"], told["role"], told["seat"]) == ("Cora", "curator", "curator, Fell Bank")
    assert told["bank_id"] == str(cast.fell_bank.id)
    assert "submission:vet" in told["rights"]
    assert "submission:vet" not in program("alice").get("/me")["rights"]
    assert program("stan").get("/me")["group_id"] is None
    program().get("/me", 401)


def test_groups_see_themselves_and_curators_theirs(program: Programs, cast: Cast) -> None:
    own = program("bob").get("/groups")["items"]
    assert [(each["name"], each["district"]) for each in own] == [("Fell Group", "Northern Part")]
    names = [each["name"] for each in program("cora").get("/groups", kind="school")["items"]]
    assert names == ["Vale School"]
    assert program("dora").get(f"/groups/{cast.fell_group.id}", 404)
    assert program("alice").get(f"/groups/{cast.vale_school.id}", 404)
    program("tess").get("/groups", 403)
    assert program("alice").get("/crews") == {"items": []}
