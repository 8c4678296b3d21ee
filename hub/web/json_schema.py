"""What a schema reads, described as JSON Schema (draft 2020-12) for whoever writes by hand or by program."""

from __future__ import annotations

from typing import Any

from apispec import APISpec
from apispec.ext.marshmallow import MarshmallowPlugin
from marshmallow import Schema

DRAFT = "https://json-schema.org/draft/2020-12/schema"


def json_schema_of(schema: Schema, title: str) -> dict[str, Any]:
    """The whole description in one piece: parts of the schema are described where they stand."""
    plugin = MarshmallowPlugin(schema_name_resolver=_in_place)
    APISpec(title=title, version="1", openapi_version="3.1.0", plugins=[plugin])
    assert plugin.converter is not None  # noqa: S101 — set when the document above takes the plugin in
    return {"$schema": DRAFT, "title": title, **plugin.converter.schema2jsonschema(schema)}


def _in_place(_: type[Schema]) -> str:
    """No name, and so no list of parts elsewhere."""
    return ""
