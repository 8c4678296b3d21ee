"""Requests that are sent twice, also at the same moment, are done once; on both databases."""

from __future__ import annotations

import io
from concurrent.futures import ThreadPoolExecutor
from datetime import timedelta
from threading import Barrier
from typing import Any

import pytest
import time_machine
from sqlalchemy import func, select

from hub.adoptions.models import Adoption
from hub.api.models import AnsweredRequest
from hub.vetting.models import Photograph, Submission
from tests.api.conftest import Programs
from tests.cast import Cast
from tests.vetting.pictures import jpeg
from tests.vetting.scene import begun, set_scene, wanted_taxon

AT_ONCE = 4


def count(cast: Cast, kind: Any) -> int:
    with cast.everywhere() as work:
        return int(work.db.scalar(select(func.count()).select_from(kind)) or 0)


@pytest.fixture
def wish(cast: Cast) -> dict[str, str]:
    taxon = wanted_taxon(cast)
    return {
        "season_id": str(cast.season.id),
        "taxon_id": str(taxon.id),
        "district_id": str(cast.north.id),
    }


def test_threads_that_send_the_same_are_told_the_same(
    program: Programs, cast: Cast, wish: dict[str, str]
) -> None:
    lead, gate = program("alice"), Barrier(AT_ONCE)

    def send(_: int) -> Any:
        gate.wait()
        client = lead.app.test_client(use_cookies=False)
        headers = lead.headers | {"Idempotency-Key": "one wish"}
        return client.post("/api/v1/adoptions", json=wish, headers=headers)

    with ThreadPoolExecutor(AT_ONCE) as threads:
        answers = list(threads.map(send, range(AT_ONCE)))
    assert [answer.status_code for answer in answers] == [201] * AT_ONCE
    assert len({answer.data for answer in answers}) == 1
    assert len({answer.headers["Location"] for answer in answers}) == 1
    assert count(cast, Adoption) == 1


def test_what_was_refused_can_be_sent_again_under_its_key(
    program: Programs, cast: Cast, wish: dict[str, str]
) -> None:
    lead = program("alice")
    lead.post("/adoptions", wish | {"district_id": str(cast.region.id)}, 422, key="a wish")
    assert count(cast, AnsweredRequest) == 0
    lead.post("/adoptions", wish, 201, key="a wish")


def test_a_key_is_its_sender_s_own(program: Programs, cast: Cast, wish: dict[str, str]) -> None:
    program("alice").post("/adoptions", wish, 201, key="the same")
    program("charlie").post("/adoptions", wish, 201, key="the same")
    assert count(cast, Adoption) == 2


def test_answers_are_forgotten_after_some_days(program: Programs, cast: Cast, wish: dict[str, str]) -> None:
    lead = program("alice")
    asked = lead.post("/adoptions", wish, 201, key="old")
    with time_machine.travel(cast.now + timedelta(days=3), tick=True):
        lead.post(f"/adoptions/{asked['id']}/release", {}, 409, key="refused")
        program("cora").post(f"/adoptions/{asked['id']}/accept", {}, key="new")
    with cast.everywhere() as work:
        assert list(work.db.scalars(select(AnsweredRequest.key))) == ["new"]


def test_a_submission_begun_twice_is_one_for_good(program: Programs, cast: Cast) -> None:
    scene, lead = set_scene(cast), program("alice")
    wish = {"sheet_id": str(scene.sheet.id)}
    first = lead.post("/submissions", wish, 201, key="mine")
    with cast.everywhere() as work:
        for row in work.db.scalars(select(AnsweredRequest)):
            work.db.delete(row)
    assert lead.post("/submissions", wish, 201, key="mine")["id"] == first["id"]
    assert count(cast, Submission) == 1


def test_a_photograph_sent_twice_is_one(program: Programs, cast: Cast) -> None:
    """Each sending of a form draws another line between its parts; what they hold is the same."""
    scene, lead = set_scene(cast), program("alice")
    path = f"/submissions/{begun(cast, scene)}/photographs"

    def send(colour: str) -> Any:
        form = {"kind": "plant", "photograph": (io.BytesIO(jpeg(colour)), "a.jpg")}
        return lead.send("POST", path, headers={"Idempotency-Key": "one"}, data=form)

    first = send("green")
    assert first.status_code == 201
    assert send("green").data == first.data
    assert count(cast, Photograph) == 1
    assert send("red").status_code == 422
