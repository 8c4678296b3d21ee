"""The OpenAPI 3.1 document, written from the operations as they are declared."""

from __future__ import annotations

import json
from functools import cache
from typing import Any

from apispec import APISpec
from apispec.ext.marshmallow import MarshmallowPlugin
from marshmallow import Schema

from hub.api import document_parts as parts
from hub.api.declared import operations
from hub.api.document_fields import FIELD_TRAITS, schema_name
from hub.api.operation import Operation

ROOT = "/api/v1"
ABOUT = (
    "The same work as on the pages, for programs. A key from the page of your account acts for you in one "
    "seat: send it as `Authorization: Bearer …`. Lists go on by `Link` headers. What is changed asks for "
    "`If-Match`, what is made or moved for an `Idempotency-Key`. Counts are whole seeds, fruits or plants; "
    "lengths are metres, positions WGS 84 degrees, instants UTC, days those of the bank’s time zone."
)


@cache
def document() -> dict[str, Any]:
    """The whole document. It is the same for everybody, and made once."""
    plugin = MarshmallowPlugin(schema_name_resolver=schema_name)
    spec = APISpec(
        title="Funicle",
        version="1",
        openapi_version="3.1.0",
        plugins=[plugin],
        info={"description": ABOUT},
        servers=[{"url": "/"}],
    )
    assert plugin.converter is not None  # noqa: S101  set when the document above takes the plugin in
    for trait in FIELD_TRAITS:
        plugin.converter.add_attribute_function(trait)
    parts.declare(spec)
    for operation in operations():
        path = ROOT + operation.documented_path
        spec.path(path=path, operations={operation.method.lower(): described(spec, plugin, operation)})
    return spec.to_dict()


def written() -> bytes:
    """The document as it is sent."""
    return json.dumps(document(), sort_keys=True).encode()


def described(spec: APISpec, plugin: MarshmallowPlugin, operation: Operation) -> dict[str, Any]:
    """One operation."""
    told: dict[str, Any] = {
        "operationId": operation.name,
        "tags": [operation.tag],
        "summary": str(operation.summary),
        "description": f"Needs the right `{operation.needs}`.",
        "parameters": parameters(plugin, operation),
        "responses": {str(operation.status): success(operation)}
        | {str(status): {"$ref": f"#/components/responses/{status}"} for status in parts.refusals(operation)},
        "security": [] if operation.is_public else [{"key": []}],
    }
    if operation.takes is not None:
        told["requestBody"] = body(operation)
    if operation.reads:
        told["responses"]["304"] = {"$ref": "#/components/responses/304"}
    return told


def parameters(plugin: MarshmallowPlugin, operation: Operation) -> list[Any]:
    """What stands in the path, in the query and in the headers."""
    found: list[Any] = [parts.path_parameter(kind, name) for kind, name in operation.arguments]
    if operation.asks is not None:
        assert plugin.converter is not None  # noqa: S101  see above
        found += plugin.converter.schema2parameters(operation.asks, location="query")
    names = [("Idempotency-Key", operation.once), ("If-Match", operation.current is not None)]
    names += [("If-None-Match", operation.reads)]
    return found + [name for name, asked in names if asked]


def body(operation: Operation) -> dict[str, Any]:
    """The request's body, with an example where the declaration has one."""
    kind = "multipart/form-data" if operation.multipart else "application/json"
    content: dict[str, Any] = {"schema": operation.takes}
    if operation.example is not None:
        content["example"] = operation.example
    kinds = {kind: content}
    if operation.method == "PATCH":
        kinds["application/merge-patch+json"] = content
    return {"required": True, "content": kinds}


def success(operation: Operation) -> dict[str, Any]:
    """What comes back when it went well."""
    if operation.binary:
        return {
            "description": str(operation.summary),
            "headers": {"ETag": parts.header("ETag")},
            "content": {operation.binary: {"schema": parts.file_schema(operation.binary)}},
        }
    if operation.gives is None or operation.status == 204:
        return {"description": str(operation.summary)}
    names = ["ETag"] + ["Link"] * operation.paged + ["Location"] * bool(operation.leads_to)
    return {
        "description": str(operation.summary),
        "headers": {name: parts.header(name) for name in names},
        "content": {"application/json": {"schema": answer_schema(operation)}},
    }


def answer_schema(operation: Operation) -> Schema | dict[str, Any]:
    """One resource, a whole list of them, or a page of a list."""
    if not (operation.many or operation.paged):
        assert operation.gives is not None  # noqa: S101  asked only of operations that give something
        return operation.gives
    members: dict[str, Any] = {"items": {"type": "array", "items": operation.gives}}
    if operation.paged:
        members["next"] = {"type": ["string", "null"], "description": "The cursor of the next page."}
    return {
        "type": "object",
        "properties": members,
        "required": list(members),
        "additionalProperties": False,
    }
