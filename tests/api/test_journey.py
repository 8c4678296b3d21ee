"""The whole loop by programs alone: from a wish to an accession, its lots and the region's progress."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

from hub.vetting.schemas import CollectionSchema
from tests.api.conftest import Programs
from tests.api.program import Program
from tests.cast import Cast
from tests.vetting.scene import HERE, TODAY, collection, wanted_taxon

LOOKED_OVER: dict[str, Any] = {"risks": [], "protected_area": False, "own_consent_needed": False}
UNTOUCHED: dict[str, Any] = {"years_collected_before": []}
PERMITTED = {"starts_on": "2031-03-01", "ends_on": "2031-11-30"}
COUNTED = {
    "counted_on": str(TODAY - timedelta(days=20)),
    "method": "counted one by one",
    "plants": 600,
    "fruiting_plants": 400,
    "fruits_per_plant": 30,
    "seeds_per_fruit": 20,
    "plants_counted": 12,
    "poor_year": False,
}


def adopted(lead: Program, curator: Program, cast: Cast) -> dict[str, Any]:
    """The first species of the list that can be had, adopted."""
    line = lead.get(f"/seasons/{cast.season.id}/wanted", needed="yes")["items"][0]
    wish = {"season_id": line["season_id"], "taxon_id": line["taxon_id"], "district_id": str(cast.north.id)}
    asked = lead.post("/adoptions", wish, 201)
    return curator.post(f"/adoptions/{asked['id']}/accept", {})


def surveyed(lead: Program, curator: Program, adoption: dict[str, Any]) -> dict[str, Any]:
    """A population with its papers, its count and its name made sure of."""
    land = {"name": "Scar Top", "radius_m": 300, "owner_label": "The estate", **LOOKED_OVER, **HERE}
    site = lead.post("/sites", land | {"district_id": adoption["district_id"]}, 201)
    permission = lead.post(f"/sites/{site['id']}/permissions", {"on": "2031-05-02"}, 201)
    lead.post(f"/permissions/{permission['id']}/grant", PERMITTED | {"answered_on": "2031-05-12"})
    plants = {"taxon_id": adoption["taxon_id"], "uncertainty_m": 10, "origin": "wild", **UNTOUCHED, **HERE}
    population = lead.post(f"/sites/{site['id']}/populations", plants, 201)
    curator.post(f"/populations/{population['id']}/verify", {"how": "a pressed specimen"})
    lead.post(f"/populations/{population['id']}/censuses", COUNTED, 201)
    lead.post(f"/adoptions/{adoption['id']}/populations", {"population_id": population["id"]})
    return population


def test_from_a_wish_to_the_bank(program: Programs, cast: Cast) -> None:
    wanted_taxon(cast)
    lead, curator, technician = program("alice"), program("cora"), program("tess")
    adoption = adopted(lead, curator, cast)
    population = surveyed(lead, curator, adoption)
    sheet = lead.post(f"/adoptions/{adoption['id']}/populations/{population['id']}/sheets", None, 201)
    assert sheet["status"] == "ready", [each["fact"] for each in sheet["body"]["asks"]]
    assert lead.get(f"/sheets/by-number/{sheet['number'].lower()}") == lead.get(f"/sheets/{sheet['id']}")
    submission = lead.post("/submissions", {"sheet_id": sheet["id"]}, 201)
    handed_in = lead.post(f"/submissions/{submission['id']}/hand-in", CollectionSchema().dump(collection()))
    assert (handed_in["state"], handed_in["revision"]) == ("handed in", 1)
    settle_stops(curator, handed_in["id"])
    curator.post(f"/submissions/{submission['id']}/approve", {}, 422)  # nobody has seen the seed yet
    here = {"day": str(cast.now.date()), "at": "08:00", "note": "dry"}
    assert technician.post(f"/submissions/{submission['id']}/arrival", here)["arrived_at"]
    accession = curator.post(f"/submissions/{submission['id']}/approve", {"remark": "Thank you."}, 201)
    lots = technician.get(f"/accessions/{accession['id']}/lots")["items"]
    assert (len(lots), sum(lot["balance_seeds"] for lot in lots)) == (60, 2400)
    tested = {"booking": "tested", "seeds": 10, "counted": True, "why": "germination"}
    assert technician.post(f"/lots/{lots[0]['id']}/entries", tested, 201)["seeds"] == -10
    technician.post(f"/accessions/{accession['id']}/store", {"reason": ""}, 409)  # in no place yet
    lines = {"all_place": "Freezer 2", "lots": [{"lot_id": lot["id"], "container": "vial"} for lot in lots]}
    placed = technician.post(f"/accessions/{accession['id']}/places", lines)["items"]
    assert {(lot["container"], lot["place"]) for lot in placed} == {("vial", "Freezer 2")}
    assert technician.post(f"/accessions/{accession['id']}/store", {"reason": ""})["state"] == "stored"
    assert lead.get(f"/adoptions/{adoption['id']}")["state"] == "fulfilled"
    region = lead.get(f"/regions/{cast.region.id}/progress")["items"]
    assert [(row["banked"], row["needed"]) for row in region] == [(1, 4)]
    taken = lead.get(f"/populations/{population['id']}/allowance/2031")
    assert taken["taken"] == 2410  # with the ten seeds cut open


def settle_stops(curator: Program, submission_id: str) -> None:
    """Overrule whatever the checks forbid; the season of the tests is a made-up one."""
    found = curator.get(f"/submissions/{submission_id}/findings")["items"]
    stops = [each["id"] for each in found if each["severity"] == "stop"]
    if stops:
        verdict = {"finding_ids": stops, "state": "overruled", "reason": "Looked at together."}
        curator.post(f"/submissions/{submission_id}/findings/settle", verdict)
