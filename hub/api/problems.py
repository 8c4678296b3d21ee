"""What goes wrong, as ``application/problem+json`` (RFC 9457)."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from typing import Any

from flask import Response, request
from marshmallow import ValidationError
from werkzeug.exceptions import HTTPException

from hub.web.language import said
from hub.web.sentences import Explanation
from hub.words import Refused, Words

KIND = "application/problem+json"
ASKED_AGAIN = ("allow", "retry-after", "www-authenticate")


def problem(
    status: int, title: str, detail: str = "", *, errors: list[dict[str, str]] | None = None
) -> Response:
    """One problem. ``errors`` name the members they are about as JSON Pointers (RFC 6901)."""
    body: dict[str, Any] = {"type": "about:blank", "title": title, "status": status, "instance": request.path}
    if detail:
        body["detail"] = detail
    if errors:
        body["errors"] = errors
    return Response(json.dumps(body, ensure_ascii=False), status, content_type=KIND)


def write(error: HTTPException, why: Explanation) -> Response:
    """Any error that the app meets below /api/, with the headers that its status asks for."""
    answer = problem(error.code or 500, said(why.title), said(why.what))
    for name, value in error.get_headers():
        if name.lower() in ASKED_AGAIN:
            answer.headers[name] = value
    if answer.status_code == 401:
        answer.headers["WWW-Authenticate"] = "Bearer"
    return answer


def invalid(wrong: ValidationError) -> Response:
    """What a schema refused, each sentence at its member."""
    errors = [
        {"pointer": pointer, "detail": detail} for pointer, detail in placed(wrong.normalized_messages())
    ]
    return problem(422, "The request cannot be used.", errors=errors)


def refused(refusal: Refused) -> Response:
    """What an action refused, in its own words."""
    words = said(refusal.words)
    errors = [{"pointer": f"/{pointer_of(refusal.field)}", "detail": words}] if refusal.field else None
    return problem(409, "This cannot be done.", words, errors=errors)


def pointer_of(field: str) -> str:
    """A form's name of a row's field, ``needs-0-populations``, as the way to a member."""
    return field.replace("-", "/")


def placed(messages: Any, pointer: str = "") -> Iterator[tuple[str, str]]:
    """Every sentence in marshmallow's tree of errors, with the pointer to what it is about."""
    if isinstance(messages, Mapping):
        for key, inner in messages.items():
            yield from placed(inner, pointer if key == "_schema" else f"{pointer}/{key}")
    else:
        for words in messages if isinstance(messages, list) else [messages]:
            yield pointer, said(words) if isinstance(words, Words) else str(words)
