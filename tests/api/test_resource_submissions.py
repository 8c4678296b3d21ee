"""Submissions by program: drafts, hand-ins, photographs, and what the bank makes of them."""

from __future__ import annotations

import io
from datetime import timedelta
from typing import Any
from uuid import UUID, uuid4

import pytest

from hub.vetting.schemas import CollectionSchema
from tests.api.conftest import Programs
from tests.api.program import Program
from tests.cast import Cast
from tests.vetting.pictures import jpeg
from tests.vetting.scene import TODAY, Scene, begun, collection, handed_in, set_scene


@pytest.fixture
def scene(cast: Cast) -> Scene:
    return set_scene(cast)


@pytest.fixture
def waiting(cast: Cast, scene: Scene) -> UUID:
    """A collection handed in on a day still to come for its season, so that findings stand open."""
    return handed_in(cast, scene, total_seeds=9000)


def picture_sent(who: Program, path: str, status: int = 201, body: bytes = b"") -> Any:
    form = {
        "kind": "voucher",
        "caption": "Sheet 12",
        "photograph": (io.BytesIO(body or jpeg(placed=True)), "a"),
    }
    headers = {"Idempotency-Key": uuid4().hex}
    return who.send("POST", path, status, data=form, headers=headers).get_json(force=True)


def test_a_draft_is_kept_as_typed_and_is_the_groups_own(program: Programs, cast: Cast, scene: Scene) -> None:
    member, submission = program("bob"), begun(cast, scene)
    path = f"/submissions/{submission}/draft"
    boxes = [{"name": "people", "text": "\x00 seven?"}, {"name": "notes", "text": "half of a pair: \ud83c"}]
    assert member.change("PUT", path, {"boxes": boxes})["items"] == boxes
    assert member.get(path)["items"] == boxes
    assert member.get(f"/submissions/{submission}")["state"] == "draft"
    program("cora").get(f"/submissions/{submission}", 404)
    assert program("cora").get("/submissions")["items"] == []
    member.post(f"/submissions/{submission}/withdraw", None, 403)
    assert program("alice").post(f"/submissions/{submission}/withdraw")["state"] == "withdrawn"
    stale = member.send("GET", path).headers["ETag"]
    member.send("PUT", path, 409, json={"boxes": []}, headers={"If-Match": stale})


def test_a_collection_is_handed_in_whole(program: Programs, cast: Cast, scene: Scene) -> None:
    lead, submission = program("alice"), begun(cast, scene)
    path, document = f"/submissions/{submission}", CollectionSchema().dump(collection())
    program("bob").post(f"{path}/hand-in", document, 403)
    wrong = lead.post(f"{path}/hand-in", document | {"people": 0, "tallies": [{"flag": "", "shoe": 1}]}, 422)
    pointers = {each["pointer"] for each in wrong["errors"]}
    assert {"/people", "/tallies/0/flag", "/tallies/0/shoe"} <= pointers
    tomorrow = document | {"collected_on": str(TODAY + timedelta(days=1))}
    late = lead.post(f"{path}/hand-in", tomorrow, 422)
    assert [each["pointer"] for each in late["errors"]] == ["/collected_on"]
    done = lead.post(f"{path}/hand-in", document)
    assert (done["state"], done["revision"], done["open_stops"]) == ("handed in", 1, None)
    assert lead.get(f"{path}/revisions")["items"][0]["data"] == collection().as_document()
    program("charlie").get(f"{path}/revisions", 404)


def test_photographs_lose_what_is_hidden_in_them(program: Programs, cast: Cast, scene: Scene) -> None:
    lead, submission = program("alice"), begun(cast, scene)
    path = f"/submissions/{submission}/photographs"
    kept = picture_sent(lead, path)
    assert (kept["kind"], kept["width"], kept["removed_at"]) == ("voucher", 40, None)
    assert "latitude" not in kept
    one = f"/photographs/{kept['id']}"
    assert b"Exif" not in lead.get(f"{one}/file")
    assert lead.change("PATCH", one, {"caption": "By the wall"})["kind"] == "voucher"
    assert lead.change("DELETE", one)["removed_at"]
    assert lead.get(path)["items"] == []
    assert lead.post(f"{one}/restore")["removed_at"] is None
    refused = picture_sent(lead, path, 422, b"no picture")
    assert [each["pointer"] for each in refused["errors"]] == ["/photograph"]
    program("eve").get(f"{one}/file", 404)
    program("cora").get(one, 404)  # of a draft
    assert picture_sent(program("cora"), path, 403)


def test_findings_are_the_banks_until_it_shares_them(program: Programs, waiting: UUID) -> None:
    lead, curator, path = program("alice"), program("cora"), f"/submissions/{waiting}"
    found = curator.get(f"{path}/findings")["items"]
    assert found[0]["severity"] == "stop"
    assert all(each["words"] for each in found)
    assert lead.get(f"{path}/findings") == {"items": []}
    assert curator.get(path)["open_stops"] > 0
    curator.post(f"{path}/approve", {}, 409)
    back = {"remarks": "Please count again.", "finding_ids": [found[0]["id"]]}
    assert curator.post(f"{path}/return", back)["state"] == "returned"
    assert [each["id"] for each in lead.get(f"{path}/findings")["items"]] == [found[0]["id"]]
    assert [each["text"] for each in lead.get(f"{path}/remarks")["items"]] == ["Please count again."]


def test_findings_are_settled_with_a_reason(program: Programs, waiting: UUID) -> None:
    curator, path = program("cora"), f"/submissions/{waiting}"
    ids = [each["id"] for each in curator.get(f"{path}/findings")["items"]]
    wish = {"finding_ids": ids, "state": "overruled"}
    wrong = curator.post(f"{path}/findings/settle", wish, 422)
    assert [each["pointer"] for each in wrong["errors"]] == ["/reason"]
    curator.post(f"{path}/findings/settle", wish | {"finding_ids": [str(uuid4())], "reason": "x"}, 404)
    settled = curator.post(f"{path}/findings/settle", wish | {"reason": "Seen together."})["items"]
    assert {each["state"] for each in settled} == {"overruled"}
    assert curator.get(path)["open_stops"] == 0
    program("tess").post(f"{path}/findings/settle", wish, 403)
    program("dora").post(f"{path}/findings/settle", wish, 404)


def test_a_submission_is_declined_for_good(program: Programs, waiting: UUID) -> None:
    curator, path = program("cora"), f"/submissions/{waiting}"
    curator.post(f"{path}/decline", {"reason": ""}, 422)
    assert curator.post(f"{path}/decline", {"reason": "Mouldy."})["state"] == "declined"
    assert curator.post(f"{path}/approve", {}, 409)
    declined = curator.get("/submissions", state="declined", sort="urgent")["items"]
    assert [each["id"] for each in declined] == [str(waiting)]
    assert program("olga").get("/submissions", 403)
