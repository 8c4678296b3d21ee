"""Accessions, their lots and ledger, and the region's progress, by program."""

from __future__ import annotations

from typing import Any
from uuid import uuid4

import pytest

from tests.api.conftest import Programs
from tests.cast import Cast
from tests.house_rules.belongings import gather_belongings


@pytest.fixture
def banked(cast: Cast) -> dict[str, str]:
    """Ids of a season in which one collection became an accession."""
    return {name: str(each) for name, each in gather_belongings(cast).ids.items()}


def test_the_book_is_the_banks_and_each_group_sees_its_own(program: Programs, banked: dict[str, str]) -> None:
    book = program("tess").get("/accessions", state="processing")["items"]
    assert [(each["id"], each["group"]) for each in book] == [(banked["accession_id"], "Fell Group")]
    assert program("alice").get("/accessions")["items"] == book
    assert program("charlie").get("/accessions")["items"] == []
    assert program("tess").get("/accessions", search=book[0]["number"].lower())["items"] == book
    assert program("dora").get(f"/accessions/{banked['accession_id']}", 404)
    assert program("tess").get("/accessions", year=2030)["items"] == []


def test_an_accession_moves_as_its_table_says(program: Programs, banked: dict[str, str]) -> None:
    bench, path = program("tess"), f"/accessions/{banked['accession_id']}"
    assert bench.post(f"{path}/deaccession", {"reason": "x"}, 409)
    assert "no place yet" in bench.post(f"{path}/store", {}, 409)["detail"]
    lots = bench.get(f"{path}/lots")["items"]
    assert bench.post(f"{path}/places", {"lots": [{"lot_id": str(uuid4()), "place": "x"}]}, 404)
    bench.post(f"{path}/places", {"lots": [{"lot_id": lot["id"], "place": "Freezer 2"} for lot in lots]})
    assert bench.post(f"{path}/store", {})["state"] == "stored"
    assert bench.post(f"{path}/living", {}, 409)
    assert "still in its lots" in bench.post(f"{path}/exhaust", {}, 409)["detail"]
    bench.post(f"{path}/deaccession", {}, 422)
    assert bench.post(f"{path}/deaccession", {"reason": "A mix-up."})["reason"] == "A mix-up."
    program("alice").post(f"{path}/store", {}, 403)


def test_seeds_are_counted_like_money(program: Programs, banked: dict[str, str]) -> None:
    bench, path = program("tess"), f"/lots/{banked['lot_id']}"
    before = bench.get(path)["balance_seeds"]
    entry = {"booking": "drawn", "seeds": 3, "counted": True, "why": "for sowing"}
    made = bench.post(f"{path}/entries", entry, 201, key="one draw")
    assert bench.post(f"{path}/entries", entry, 201, key="one draw") == made
    assert (made["seeds"], made["estimated"]) == (-3, False)
    assert bench.get(path)["balance_seeds"] == before - 3
    assert [each["seeds"] for each in bench.get(f"{path}/entries")["items"]] == [before, -3]
    too_many = bench.post(f"{path}/entries", entry | {"seeds": before}, 422)
    assert [each["pointer"] for each in too_many["errors"]] == ["/seeds"]
    program("alice").get(path, 403)
    program("dora").post(f"{path}/entries", entry, 404)


def test_a_lot_has_its_place(program: Programs, banked: dict[str, str]) -> None:
    bench, path = program("tess"), f"/lots/{banked['lot_id']}"
    assert bench.change("PATCH", path, {"place": "Freezer 2"})["place"] == "Freezer 2"
    listed: Any = bench.get(f"/accessions/{banked['accession_id']}/lots")["items"]
    assert listed[0]["place"] == "Freezer 2"
    boxed = bench.change("PATCH", path, {"container": "glass vial"})
    assert (boxed["container"], boxed["place"]) == ("glass vial", "Freezer 2")


def test_labels_are_printed(program: Programs, banked: dict[str, str]) -> None:
    bench, path = program("tess"), f"/accessions/{banked['accession_id']}/labels.pdf"
    assert bench.get(path, layout="single", lot=banked["lot_id"]).startswith(b"%PDF-")
    bench.get(path, 404, lot=str(uuid4()))
    wrong = bench.get(path, 422, used=24)
    assert [each["parameter"] for each in wrong["errors"]] == ["used"]


def test_the_region_sees_how_far_it_has_got(program: Programs, cast: Cast, banked: dict[str, str]) -> None:
    path, reader = f"/regions/{cast.region.id}/progress", program("olga")
    (row,) = reader.get(path, sort="missing")["items"]
    assert (row["needed"], row["missing"], row["adoptions"], row["accessioned"]) == (4, 3, 1, 1)
    assert row["banked"] == 0  # it is not stored yet
    assert reader.get(path, stage="asked")["items"] == []
    assert reader.get(path, district=str(cast.south.id))["items"][0]["adoptions"] == 0
    districts = {each["district"]: each["accessioned"] for each in reader.get(f"{path}/districts")["items"]}
    assert districts == {"Northern Part": 1, "Southern Part": 0}
    assert reader.get("/progress/stalled")["items"] == []
    program("alice").get("/progress/stalled", 403)
    program().get(path, 401)
    reader.get(f"/regions/{uuid4()}/progress", 404)
