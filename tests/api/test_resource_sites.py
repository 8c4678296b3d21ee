"""Sites with their papers, populations, counts and salvage, by program."""

from __future__ import annotations

import io
from typing import Any

import pytest

from tests.api.conftest import Programs
from tests.cast import Cast
from tests.sites.scene import HERE, opened, stored_taxon
from tests.vetting.pictures import jpeg

LAND = {"name": "Scar Top", "radius_m": 300, "owner_label": "The estate", "risks": ["cliff"], **HERE}


@pytest.fixture
def place(cast: Cast) -> dict[str, str]:
    site, population = opened(cast)
    taxon = str(population.taxon_id)
    return {"site": str(site.id), "population": str(population.id), "taxon": taxon}


def test_a_site_is_opened_where_it_lies(program: Programs, cast: Cast) -> None:
    lead = program("alice")
    site = lead.post("/sites", LAND | {"district_id": str(cast.north.id)}, 201)
    assert (site["risks"], site["permission"], site["ecoregion_id"]) == (
        ["cliff"],
        "to ask",
        str(cast.meadows.id),
    )
    wrong = lead.post("/sites", LAND | {"district_id": str(cast.south.id)}, 422)
    assert [each["pointer"] for each in wrong["errors"]] == ["/latitude"]
    program("bob").post("/sites", LAND, 403)


def test_groups_are_let_in_and_out_again(program: Programs, cast: Cast, place: dict[str, str]) -> None:
    curator, path = program("cora"), f"/sites/{place['site']}/groups"
    assert program("charlie").get("/sites")["items"] == []
    both = curator.post(path, {"group_id": str(cast.vale_school.id)})["items"]
    assert [each["name"] for each in both] == ["Fell Group", "Vale School"]
    assert program("charlie").get(f"/sites/{place['site']}")["latitude"] == HERE["latitude"]
    one = curator.change("DELETE", f"{path}/{cast.vale_school.id}", of=path)["items"]
    assert [each["name"] for each in one] == ["Fell Group"]
    assert program("charlie").get(f"/sites/{place['site']}", 404)
    curator.post(path, {"group_id": str(cast.shore_group.id)}, 404)
    program("alice").get(path, 403)


def test_the_owner_is_asked_and_answers(program: Programs, place: dict[str, str]) -> None:
    lead = program("alice")
    asked = lead.post(f"/sites/{place['site']}/permissions", {"on": "2031-05-02"}, 201)
    path = f"/permissions/{asked['id']}"
    days = {"answered_on": "2031-05-10", "starts_on": "2031-06-01", "ends_on": "2031-05-01"}
    wrong = lead.post(f"{path}/grant", days, 422)
    assert [each["pointer"] for each in wrong["errors"]] == ["/ends_on"]
    granted = lead.post(f"{path}/grant", days | {"ends_on": "2031-10-31"})
    assert (granted["state"], granted["signed"]) == ("granted", False)
    taken_back = lead.post(f"{path}/withdraw", {"on": "2031-07-01", "reason": "Sold."})
    assert taken_back["state"] == "withdrawn"
    lead.post(f"{path}/refuse", {"answered_on": "2031-07-01"}, 409)
    assert lead.get(f"/sites/{place['site']}/permissions")["items"][0]["id"] == asked["id"]


def test_a_signed_paper_is_kept(program: Programs, place: dict[str, str]) -> None:
    lead = program("alice")
    asked = lead.post(f"/sites/{place['site']}/permissions", {"on": "2031-05-02"}, 201)
    path = f"/permissions/{asked['id']}"
    days = {"answered_on": "2031-05-10", "starts_on": "2031-06-01", "ends_on": "2031-10-31"}
    lead.post(f"{path}/grant", days)
    lead.get(f"{path}/signed-file", 404)
    tag = {"If-Match": lead.send("GET", path).headers["ETag"]}

    def put(body: bytes, status: int) -> Any:
        paper = {"signed_file": (io.BytesIO(body), "letter.pdf")}
        return lead.send("PUT", f"{path}/signed-file", status, data=paper, headers=tag)

    refused = put(b"no paper at all", 422).get_json(force=True)
    assert [each["pointer"] for each in refused["errors"]] == ["/signed_file"]
    assert put(jpeg(), 200).json["signed"] is True
    assert lead.get(f"{path}/signed-file").startswith(b"RIFF")
    program("charlie").get(f"{path}/signed-file", 404)


def test_permits_are_recorded_by_the_bank(program: Programs, place: dict[str, str]) -> None:
    curator = program("cora")
    paper = {"authority": "County", "number": "C/1", "starts_on": "2031-03-01", "ends_on": "2031-10-31"}
    made = curator.post("/permits", paper | {"taxon_id": place["taxon"], "cap_seeds": 500}, 201)
    assert program("alice").get("/permits", holds="true")["items"] == [made]
    assert program("dora").get(f"/permits/{made['id']}", 404)
    ended = curator.post(f"/permits/{made['id']}/end", {"on": "2031-07-01", "reason": "Taken back."})
    assert ended["ended_on"] == "2031-07-01"
    assert curator.get("/permits", holds="true")["items"] == []
    program("alice").post("/permits", paper, 403)
    nothing = curator.post("/permits", paper, 422)
    assert [each["pointer"] for each in nothing["errors"]] == ["/taxon_id"]


def test_populations_are_added_changed_and_retired(
    program: Programs, cast: Cast, place: dict[str, str]
) -> None:
    lead = program("alice")
    found = {"taxon_id": place["taxon"], "uncertainty_m": 5, "origin": "wild", **HERE}
    added = lead.post(f"/sites/{place['site']}/populations", found, 201)
    path = f"/populations/{added['id']}"
    assert lead.change("PATCH", path, {"trend": "falling"})["trend"] == "falling"
    far = lead.change("PATCH", path, {"latitude": 47.9}, 422)
    assert [each["pointer"] for each in far["errors"]] == ["/latitude"]
    assert program("cora").post(f"{path}/verify", {"how": "a specimen"})["identity_verified"] is True
    lead.post(f"{path}/verify", {"how": "a look"}, 403)
    assert lead.post(f"{path}/retire", {"reason": "Ploughed."})["retired_at"]
    assert len(lead.get("/populations", site=place["site"])["items"]) == 1
    assert [each["id"] for each in lead.get("/populations", retired="yes")["items"]] == [added["id"]]
    assert lead.post(f"{path}/bring-back", {"reason": "It is there."})["retired_at"] is None


def test_counts_are_kept_as_they_were(program: Programs, place: dict[str, str]) -> None:
    path = f"/populations/{place['population']}/censuses"
    count = {
        "counted_on": "2031-07-01",
        "method": "plots",
        "plants": 90,
        "plants_low": 70,
        "plants_high": 110,
    }
    member = program("bob")
    made = member.post(path, count, 201)
    assert member.get(path)["items"] == [made]
    wrong = member.post(path, count | {"plants_low": 95}, 422)
    assert [each["pointer"] for each in wrong["errors"]] == ["/plants_low"]
    program("eve").post(path, count, 404)
    program("tess").post(path, count, 403)


def test_a_doomed_population_has_its_case(program: Programs, place: dict[str, str]) -> None:
    lead, curator = program("alice"), program("cora")
    path = f"/populations/{place['population']}/salvage"
    case = lead.post(
        path,
        {"evidence": "A road is coming.", "evidence_on": "2031-06-01", "loss_expected_on": "2031-12-01"},
        201,
    )
    one = f"/salvage/{case['id']}"
    assert lead.post(f"{one}/agree", {"on": "2031-06-10"})["state"] == "asked"
    lead.post(f"{one}/decide", {"decision": "approve", "reason": "Yes."}, 403)
    decided = curator.post(f"{one}/decide", {"decision": "approve", "reason": "Yes."})
    assert decided["state"] == "approved"
    assert lead.get(path)["items"] == [decided]


def test_what_may_leave_is_told(program: Programs, cast: Cast, place: dict[str, str]) -> None:
    stored_taxon(cast, name="Gentiana verna L.")
    path = f"/populations/{place['population']}/allowance"
    nothing = {"allowance": 0, "reserved": 0, "taken": 0, "left": 0}
    assert program("alice").get(f"{path}/2031") == nothing
    program("alice").get(f"{path}/20311", 404)
    program("eve").get(f"{path}/2031", 404)
