"""Sheets by program: issued, read as they were frozen, printed, withdrawn; and the rules alone."""

from __future__ import annotations

from typing import Any

import pytest
from sqlalchemy import func, select

from hub.audit.models import AuditEntry
from hub.protocols.models import IssuedSheet
from tests.api.conftest import Programs
from tests.cast import Cast
from tests.vetting.scene import Scene, set_scene

CASE: dict[str, Any] = {
    "taxon": {"name": "Silene acaulis", "care_class": "rare", "fruit_type": "dry_capsule", "native": True},
    "population": {"plants": 600, "fruiting_plants": 400, "identity_verified": True},
    "permission": {"granted": True, "since": "2031-01-01", "until": "2031-12-31"},
}


@pytest.fixture
def scene(cast: Cast) -> Scene:
    return set_scene(cast)


def test_a_sheet_is_read_as_it_was_frozen(program: Programs, scene: Scene) -> None:
    reader = program("bob")
    sheet = reader.get(f"/sheets/{scene.sheet.id}")
    assert sheet["body"] == scene.sheet.body
    assert (sheet["number"], sheet["status"], sheet["year"]) == (scene.sheet.number, "ready", 2031)
    summary = reader.get("/sheets", state="current", says="ready")["items"]
    assert summary == [{name: sheet[name] for name in sheet if name not in ("case", "body")}]
    assert reader.get("/sheets", state="withdrawn")["items"] == []
    assert reader.get(f"/sheets/by-number/{scene.sheet.number.replace('-', ' ').lower()}") == sheet
    reader.get("/sheets/by-number/FLG-2031-S99-X", 404)


def test_an_unchanged_case_gives_the_sheet_there_is(program: Programs, scene: Scene) -> None:
    path = f"/adoptions/{scene.adoption_id}/populations/{scene.population_id}/sheets"
    assert program("alice").post(path, None, 201)["id"] == str(scene.sheet.id)
    program("bob").post(path, None, 403)
    program("charlie").post(path, None, 404)


def test_a_sheet_is_withdrawn_by_the_curator(program: Programs, scene: Scene) -> None:
    path = f"/sheets/{scene.sheet.id}/withdraw"
    program("alice").post(path, {"reason": "No."}, 403)
    program("dora").post(path, {"reason": "No."}, 404)
    program("cora").post(path, {}, 422)
    assert program("cora").post(path, {"reason": "The owner called."})["state"] == "withdrawn"
    program("cora").post(path, {"reason": "Once more."}, 409)


@pytest.mark.parametrize("paper", ["sheet.pdf", "sheet.pdf?version=plain", "form.pdf"])
def test_sheets_are_printed(program: Programs, scene: Scene, paper: str) -> None:
    answer = program("alice").send("GET", f"/sheets/{scene.sheet.id}/{paper}", 200)
    assert answer.data.startswith(b"%PDF-")
    program("eve").get(f"/sheets/{scene.sheet.id}/{paper}", 404)


def test_the_rules_alone_are_open_to_all_and_store_nothing(program: Programs, cast: Cast) -> None:
    def stored() -> list[int | None]:
        with cast.everywhere() as work:
            kinds = (IssuedSheet, AuditEntry)
            return [work.db.scalar(select(func.count()).select_from(kind)) for kind in kinds]

    visitor, before = program(), stored()
    told = visitor.send("POST", "/sheets/preview?on=2031-07-14", 200, json=CASE).json
    assert (told["on"], told["season"], told["headline"]["handling"]["value"]) == (
        "2031-07-14",
        2031,
        "by_mother",
    )
    assert told["case"]["population"]["plants"] == 600
    assert stored() == before


def test_the_rules_name_what_they_cannot_read(program: Programs) -> None:
    wrong = CASE | {"population": {"plants": 10, "fruiting_plants": 20}, "permits": [{"cap_seeds": "many"}]}
    answer = program().send("POST", "/sheets/preview", 422, json=wrong).get_json(force=True)
    pointers = {each["pointer"] for each in answer["errors"]}
    assert pointers == {"/population/fruiting_plants", "/permits/0/cap_seeds"}
    nameless = program().send("POST", "/sheets/preview", 422, json={"taxon": {}}).get_json(force=True)
    assert [each["pointer"] for each in nameless["errors"]] == ["/taxon/name"]
