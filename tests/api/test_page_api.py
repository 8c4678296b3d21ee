"""The page on which people read what programs may do."""

from __future__ import annotations

from hub.api.declared import operations
from tests.support.browser import Browse


def test_it_tells_of_every_operation(browse: Browse) -> None:
    page = browse().get("/api")
    for operation in operations():
        assert f"{operation.method} {operation.documented_path}" in page.text
    assert "/api/v1/openapi.json" in page.html


def test_it_costs_no_question(browse: Browse) -> None:
    window = browse()
    window.get("/api")
    assert window.queries == []


def test_everybody_may_read_it(browse: Browse) -> None:
    for name in ("alice", "tess", "olga", "stan"):
        assert browse(name).get("/api").status == 200


def test_there_is_no_other_way_to_ask(browse: Browse) -> None:
    assert browse("alice").post("/api", status=405)
