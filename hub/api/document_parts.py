"""The parts of the document that operations share: headers, parameters, problems, the key."""

from __future__ import annotations

from typing import Any

from apispec import APISpec

from hub.api.operation import Operation
from hub.web.sentences import explanation

PROBLEM = {
    "type": "object",
    "description": "What went wrong (RFC 9457).",
    "required": ["type", "title", "status", "detail", "instance"],
    "additionalProperties": False,
    "properties": {
        "type": {"type": "string"},
        "title": {"type": "string"},
        "status": {"type": "integer", "minimum": 400, "maximum": 599},
        "detail": {"type": "string"},
        "instance": {"type": "string", "description": "The path that was asked for."},
        "errors": {
            "type": "array",
            "description": "Sentences about single members of the body, or parameters of the query.",
            "items": {
                "type": "object",
                "required": ["detail"],
                "additionalProperties": False,
                "properties": {
                    "pointer": {"type": "string", "description": "JSON Pointer (RFC 6901) into the body."},
                    "parameter": {"type": "string", "description": "A parameter of the query."},
                    "detail": {"type": "string"},
                },
            },
        },
    },
    "example": {
        "type": "about:blank",
        "title": "Something needs another look",
        "status": 422,
        "detail": "What was sent cannot be used as it stands. Nothing was changed.",
        "instance": "/api/v1/adoptions",
        "errors": [
            {"pointer": "/district_id", "detail": "Please choose one of the districts of your region."}
        ],
    },
}
HEADERS = {
    "ETag": "A tag of this very state, for If-Match and If-None-Match.",
    "Link": "The addresses of this page, the first, the next and the one before (RFC 8288).",
    "Location": "The address of what was made.",
    "Retry-After": "Seconds to wait.",
    "WWW-Authenticate": "How to send a key.",
}
PARAMETERS = {
    "Idempotency-Key": (
        "Any text of your own, a new one for each wish. Sent again with the same request it gives the same "
        "answer and does nothing twice.",
        {"type": "string", "minLength": 1, "maxLength": 255, "pattern": "^[!-~]+$"},
    ),
    "If-Match": ("The ETag of the state that you have read.", {"type": "string", "minLength": 1}),
    "If-None-Match": ("The ETag of a state that you have already.", {"type": "string"}),
}
SCHEMA_OF: dict[str, dict[str, Any]] = {
    "uuid": {"type": "string", "format": "uuid"},
    "int": {"type": "integer", "minimum": 0, "maximum": 9999},
}
OF_STATUS = {401: ("WWW-Authenticate",), 429: ("Retry-After",), 503: ("Retry-After",)}
# Any request can meet these, whatever it asks for.
ALWAYS = (400, 401, 422, 429, 503)
PROBLEMS = (*ALWAYS, 403, 404, 409, 412, 413, 415, 428)


def declare(spec: APISpec) -> None:
    """Put the shared parts into a document."""
    spec.components.security_scheme(
        "key",
        {"type": "http", "scheme": "bearer", "description": "A key from the page of your account."},
    )
    spec.components.schema("Problem", PROBLEM)
    for name, (about, schema) in PARAMETERS.items():
        required = name != "If-None-Match"
        spec.components.parameter(
            name, "header", {"name": name, "description": about, "required": required, "schema": schema}
        )
    for status in PROBLEMS:
        spec.components.response(str(status), problem_response(status))
    spec.components.response(
        "304", {"description": "You have this state already.", "headers": {"ETag": header("ETag")}}
    )


def problem_response(status: int) -> dict[str, Any]:
    """The answer of one status, as every operation gives it."""
    return {
        "description": str(explanation(status).title),
        "headers": {name: header(name) for name in OF_STATUS.get(status, ())},
        "content": {"application/problem+json": {"schema": {"$ref": "#/components/schemas/Problem"}}},
    }


def refusals(operation: Operation) -> list[int]:
    """The statuses by which an operation can say no."""
    asked = {
        403: True,
        404: bool(operation.arguments) or operation.takes is not None,
        409: not operation.reads,
        412: operation.current is not None or operation.reads,
        413: not operation.reads,
        415: operation.takes is not None,
        428: operation.current is not None,
    }
    return sorted({*ALWAYS, *(status for status, can in asked.items() if can)})


def header(name: str) -> dict[str, Any]:
    kind = "integer" if name == "Retry-After" else "string"
    return {"description": HEADERS[name], "schema": {"type": kind}}


def path_parameter(kind: str, name: str) -> dict[str, Any]:
    """An argument of a path."""
    schema = SCHEMA_OF.get(kind, {"type": "string"})
    return {"in": "path", "name": name, "required": True, "schema": schema}


def file_schema(media_type: str) -> dict[str, Any]:
    """The body of a file: JSON is any object, everything else is bytes."""
    return {"type": "object"} if "json" in media_type else {"type": "string", "format": "binary"}
