"""The OpenAPI document: valid, complete in both directions, and the same for everybody."""

from __future__ import annotations

import re

import pytest
from flask import Flask
from openapi_spec_validator import OpenAPIV31SpecValidator

from hub.api.declared import operations
from hub.api.document import ROOT, document
from tests.api.conftest import Programs

ARGUMENT = re.compile(r"<(?:[^:>]+:)?(\w+)>")


def routes(app: Flask) -> set[tuple[str, str]]:
    """Method and path of every route below the API's root, as OpenAPI writes them."""
    return {
        (method.lower(), ARGUMENT.sub(r"{\1}", rule.rule))
        for rule in app.url_map.iter_rules()
        if rule.rule.startswith("/api/")
        for method in (rule.methods or set()) - {"HEAD", "OPTIONS"}
    }


def documented() -> set[tuple[str, str]]:
    return {(method, path) for path, methods in document()["paths"].items() for method in methods}


def test_the_document_is_valid() -> None:
    """OpenAPI 3.1 (openapi-spec-validator); a broken document is refused, so the check can fail."""
    assert list(OpenAPIV31SpecValidator(document()).iter_errors()) == []
    broken = document() | {"info": {"title": "no version"}}
    assert list(OpenAPIV31SpecValidator(broken).iter_errors())


def test_every_route_is_in_the_document_and_the_reverse(app: Flask) -> None:
    assert routes(app) == documented()
    assert len(documented()) == len(operations()) > 100


def test_it_is_served_to_everybody(program: Programs) -> None:
    reader = program()
    assert reader.get("/openapi.json") == document()
    tag = reader.send("GET", "/openapi.json").headers["ETag"]
    assert reader.send("GET", "/openapi.json", 304, headers={"If-None-Match": tag}).data == b""


def test_names_are_stable_and_unique() -> None:
    names = [operation.name for operation in operations()]
    assert len(set(names)) == len(names)
    assert not [name for name in document()["components"]["schemas"] if re.search(r"\d$|Schema|Shown", name)]


@pytest.mark.parametrize("method", ["patch", "put", "delete"])
def test_every_change_asks_for_what_was_read(method: str) -> None:
    changes = [ops[method] for ops in document()["paths"].values() if method in ops]
    assert changes
    for operation in changes:
        assert {"$ref": "#/components/parameters/If-Match"} in operation["parameters"], operation[
            "operationId"
        ]
        assert {"412", "428"} <= operation["responses"].keys()


def test_everything_that_is_made_or_moved_is_done_once() -> None:
    for path, methods in document()["paths"].items():
        stores_nothing = path == f"{ROOT}/sheets/preview" or path.startswith(f"{ROOT}/compute/")
        if "post" in methods and not stores_nothing:
            key = {"$ref": "#/components/parameters/Idempotency-Key"}
            assert key in methods["post"]["parameters"], path


def test_every_page_of_a_list_can_be_asked_for() -> None:
    for operation in (each for each in operations() if each.paged):
        asked = document()["paths"][ROOT + operation.documented_path]["get"]["parameters"]
        assert {"cursor", "limit", "sort"} <= {each.get("name") for each in asked}, operation.name
        limit = next(each["schema"] for each in asked if each.get("name") == "limit")
        assert (limit["minimum"], limit["maximum"]) == (1, 200)


def test_only_what_is_public_needs_no_key() -> None:
    public = {
        operation["operationId"]
        for methods in document()["paths"].values()
        for operation in methods.values()
        if operation["security"] == []
    }
    places = {"regions", "banks", "districts", "district", "ecoregions", "ecoregion"}
    lists = {"seasons", "season", "wanted", "wanted_line"}
    assert public == places | lists | {"openapi", "preview"}
