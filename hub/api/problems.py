"""What goes wrong, as ``application/problem+json`` (RFC 9457)."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from typing import Any

from flask import Response, request
from marshmallow import ValidationError
from werkzeug.exceptions import HTTPException

from hub.web.language import said
from hub.web.sentences import Explanation, explanation
from hub.words import Refused, Words, say

KIND = "application/problem+json"
ASKED_ALONG = ("allow", "retry-after")
NO_KEY = 'Bearer realm="hub"'
ENDED_KEY = 'Bearer realm="hub", error="invalid_token"'
LONGEST_POINTER = 300  # characters; nobody needs a longer name back
UNUSABLE = say("What was sent cannot be used as it stands. Nothing was changed.")

Errors = list[dict[str, str]]


class Wrong(Exception):
    """Something about the request itself, with its answer."""

    def __init__(self, answer: Response) -> None:
        super().__init__(answer.status)
        self.answer = answer


def problem(status: int, detail: Words | str, *, errors: Errors | None = None) -> Response:
    """One problem. ``errors`` name the members they are about as JSON Pointers (RFC 6901)."""
    title = said(explanation(status).title)
    body: dict[str, Any] = {"type": "about:blank", "title": title, "status": status, "detail": said(detail)}
    body["instance"] = request.path
    if errors:
        body["errors"] = errors
    return Response(json.dumps(body), status, content_type=KIND)


def write(error: HTTPException, why: Explanation) -> Response:
    """Any error that the app meets below /api/, with the headers that its status asks for."""
    answer = problem(error.code or 500, why.what)
    for name, value in error.get_headers():
        if name.lower() in ASKED_ALONG:
            answer.headers[name] = value
    if answer.status_code == 401:
        answer.headers["WWW-Authenticate"] = ENDED_KEY if "Authorization" in request.headers else NO_KEY
    return answer


def invalid(wrong: ValidationError) -> Response:
    """What a schema refused of a body, each sentence at its member."""
    found = placed(wrong.normalized_messages())
    return problem(
        422, UNUSABLE, errors=[{"pointer": pointer, "detail": detail} for pointer, detail in found]
    )


def bad_query(wrong: ValidationError) -> Response:
    """What a schema refused of the query, each sentence beside the parameter's name."""
    found = placed(wrong.normalized_messages())
    return problem(
        422, UNUSABLE, errors=[{"parameter": pointer[1:], "detail": detail} for pointer, detail in found]
    )


def refused(refusal: Refused) -> Response:
    """What an action refused, in its own words: 422 where a member is to blame, else 409."""
    words = said(refusal.words)
    if not refusal.field:
        return problem(409, words)
    pointer = "/" + refusal.field.replace("-", "/")  # a form calls a row's box ``needs-0-populations``
    return problem(422, words, errors=[{"pointer": pointer, "detail": words}])


def placed(messages: Any, pointer: str = "") -> Iterator[tuple[str, str]]:
    """Every sentence in marshmallow's tree of errors, with the pointer to what it is about."""
    if isinstance(messages, Mapping):
        for key, inner in messages.items():
            yield from placed(inner, pointer if key == "_schema" else f"{pointer}/{escaped(key)}")
    else:
        for words in messages if isinstance(messages, list) else [messages]:
            yield pointer[:LONGEST_POINTER], said(words)


def escaped(key: Any) -> str:
    """A member's name within a pointer (RFC 6901 §3)."""
    return str(key).replace("~", "~0").replace("/", "~1")
