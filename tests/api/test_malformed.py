"""Whatever is sent, the answer is a problem with a sentence: never a fault of the hub."""

from __future__ import annotations

import json
from typing import Any

import pytest
from flask import Flask

from hub.api import pace
from tests.api.conftest import Programs
from tests.api.program import Program
from tests.cast import Cast

HUGE = "9" * 5000
DEEP = "[" * 100_000 + "]" * 100_000
JSON = "application/json"


@pytest.fixture
def lead(program: Programs) -> Program:
    return program("alice")


def posted(lead: Program, body: bytes, kind: str = JSON, path: str = "/adoptions") -> Any:
    return lead.send("POST", path, headers={"Idempotency-Key": "k", "Content-Type": kind}, data=body)


@pytest.mark.parametrize(
    ("body", "status"),
    [
        (b"", 400),
        (b"{", 400),
        (b"\xff\xfe{}", 400),
        (b"\xef\xbb\xbf{}", 400),
        (b'{"wish": NaN}', 400),
        (b'{"wish": -Infinity}', 400),
        (b'{"wish": "a", "wish": "b"}', 400),
        (DEEP.encode(), 400),
        (b'{"a":' * 50_000 + b"1" + b"}" * 50_000, 400),
        (f'{{"wish": {HUGE}}}'.encode(), 400),
        (b'{"wish": 1e400}', 422),
        (b"[]", 422),
        (b"null", 422),
        (b'"text"', 422),
        (b'{"wish": "\\ud800"}', 422),
        (b'{"\\ud800": 1}', 422),
        (b'{"wish": "\\u0000"}', 422),
        (b'{"season_id": {"a": []}, "taxon_id": [1], "district_id": true}', 422),
        (b" " * 2_000_001, 413),
    ],
    ids=lambda each: str(each[:20]) if isinstance(each, bytes) else str(each),
)
def test_a_body_that_cannot_be_used(lead: Program, body: bytes, status: int) -> None:
    answer = posted(lead, body)
    assert answer.status_code == status
    told = answer.get_json(force=True)
    assert told["status"] == status
    assert told["detail"]


@pytest.mark.parametrize(
    "kind", ["text/plain", "application/json; charset=latin-1", "multipart/form-data", "application/xml", ""]
)
def test_a_body_of_another_kind(lead: Program, kind: str) -> None:
    assert posted(lead, b"{}", kind).status_code == 415


def test_a_merge_patch_is_for_patching_alone(lead: Program) -> None:
    assert posted(lead, b"{}", "application/merge-patch+json").status_code == 415


@pytest.mark.parametrize(
    ("query", "parameter"),
    [
        ("limit=0", "limit"),
        ("limit=201", "limit"),
        (f"limit={HUGE}", "limit"),
        ("limit=ten", "limit"),
        ("limit=5&limit=6", "limit"),
        ("sort=shoe-size", "sort"),
        ("search=%00", "search"),
        ("state=asleep", "state"),
        ("season=42", "season"),
        ("shoe=42", "shoe"),
        ("cursor=" + "a" * 1001, "cursor"),
    ],
)
def test_a_query_that_cannot_be_used(lead: Program, query: str, parameter: str) -> None:
    answer = lead.send("GET", f"/adoptions?{query}", 422)
    assert [each["parameter"] for each in answer.get_json(force=True)["errors"]] == [parameter]


@pytest.mark.parametrize("cursor", ["torn", "WzAsMV0.forged", "%00", "é"])
def test_a_cursor_that_nobody_gave(lead: Program, cursor: str) -> None:
    assert lead.send("GET", f"/adoptions?cursor={cursor}").status_code in (400, 422)


@pytest.mark.parametrize("path", ["/adoptions/42", "/adoptions/%00", "/shoes", "/sheets/by-number/%00", "/"])
def test_an_address_of_nothing(lead: Program, path: str) -> None:
    answer = lead.send("GET", path, 404)
    assert answer.mimetype == "application/problem+json"


def test_methods_that_are_not_there(lead: Program) -> None:
    for method in ("PUT", "DELETE", "PATCH", "TRACE"):
        answer = lead.send(method, "/adoptions")
        assert answer.status_code == 405
        assert "GET" in answer.headers["Allow"]
    offered = lead.client.options("/api/v1/adoptions", headers=lead.headers)
    assert offered.status_code == 200
    assert {"GET", "POST"} <= set(offered.headers["Allow"].split(", "))


def test_head_is_get_without_its_body(lead: Program) -> None:
    whole, head = lead.send("GET", "/me"), lead.send("HEAD", "/me", 200)
    assert head.data == b""
    assert head.headers["ETag"] == whole.headers["ETag"]


@pytest.mark.parametrize("key", ["", '""', "a" * 256, "tab\there", "é"])
def test_a_key_that_is_none(lead: Program, key: str) -> None:
    answer = lead.send("POST", "/adoptions", 400, headers={"Idempotency-Key": key}, json={})
    assert "Idempotency-Key" in answer.get_json(force=True)["detail"]


@pytest.mark.parametrize("header", ["Bearer nonsense", "Bearer", "Basic YTpi", "Bearer \x80", "x"])
def test_a_bearer_that_is_none(program: Programs, header: str) -> None:
    for path in ("/me", "/regions"):
        answer = program().send("GET", path, 401, headers={"Authorization": header})
        assert 'error="invalid_token"' in answer.headers["WWW-Authenticate"]


def test_a_cookie_is_no_key(app: Flask, browse: Any) -> None:
    """A signed-in browser gets nothing here, so no other site can act for it."""
    assert browse("alice").client.get("/api/v1/me").status_code == 401


def test_a_body_where_none_is_taken(lead: Program, cast: Cast) -> None:
    path = f"/submissions/{cast.region.id}/withdraw"
    assert posted(lead, b'{"sure": true}', path=path).status_code == 400
    assert posted(lead, b"{}", path=path).status_code == 404


def test_a_key_that_asks_too_often_waits(
    lead: Program, program: Programs, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(pace, "TIMES", 3)
    for _ in range(3):
        lead.get("/me")
    answer = lead.send("GET", "/me", 429)
    assert 0 < int(answer.headers["Retry-After"]) <= 60
    assert json.loads(answer.data)["title"] == "Too often in a short time"
    assert program("cora").get("/me")["name"] == "Cora"


def test_changes_of_one_seat_count_together_whichever_key_they_bring(
    lead: Program, program: Programs, cast: Cast, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(pace, "CHANGES", 4)
    path, second = f"/submissions/{cast.region.id}/withdraw", program("alice")
    for key in (lead, second, lead, second):
        assert posted(key, b"{}", path=path).status_code == 404
    assert int(posted(second, b"{}", path=path).headers["Retry-After"]) > 0
    assert posted(lead, b"{}", path=path).status_code == 429
    assert posted(program("charlie"), b"{}", path=path).status_code == 404
    second.get("/me")
