"""What was sent: the query, a JSON body, or a form with a file; strict, and never guessed at."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any, NoReturn

from flask import request
from marshmallow import Schema, ValidationError
from werkzeug.exceptions import BadRequest, RequestEntityTooLarge, UnsupportedMediaType

from hub.api import problems
from hub.api.operation import Operation
from hub.words import say

MERGE_PATCH = "application/merge-patch+json"
LARGEST_JSON = 2_000_000  # bytes: the longest outline of a site fits twice
ONCE = say("Give this once.")
BODILESS = say("This takes no body. Send none, or an empty object.")


def query_of(operation: Operation) -> dict[str, Any]:
    """The query, checked; a name that is not known is refused here as in a body."""
    schema = operation.asks or Schema.from_dict({})()
    twice = {name: [ONCE] for name, values in request.args.lists() if len(values) > 1}
    try:
        if twice:
            raise ValidationError(twice)
        asked = schema.load(request.args.to_dict())
    except ValidationError as wrong:
        raise problems.Wrong(problems.bad_query(wrong)) from None
    return {"asked": asked} if operation.asks is not None else {}


def body_of(operation: Operation) -> dict[str, Any]:
    """The body, checked. What takes none is refused one, so that nothing is dropped in silence."""
    if operation.takes is None:
        check_empty(operation)
        return {}
    given = form_sent() if operation.multipart else json_sent(operation)
    return {"sent": operation.takes.load(given)}


def check_empty(operation: Operation) -> None:
    if not operation.reads and request.get_data().strip() not in (b"", b"{}"):
        raise problems.Wrong(problems.problem(400, BODILESS))


def form_sent() -> dict[str, Any]:
    """The fields and files of a form, each name once."""
    if request.mimetype != "multipart/form-data":
        raise UnsupportedMediaType
    pairs = [*request.form.items(multi=True), *request.files.items(multi=True)]
    found = dict(pairs)
    if len(found) < len(pairs):
        names = [name for name, _ in pairs]
        raise ValidationError({name: [ONCE] for name in found if names.count(name) > 1})
    return found


def json_sent(operation: Operation) -> Any:
    """The JSON that was sent, in UTF-8 (RFC 8259 §8.1); as a merge patch (RFC 7396) only to be patched."""
    kinds = {"application/json", MERGE_PATCH} if operation.method == "PATCH" else {"application/json"}
    if request.mimetype not in kinds or request.mimetype_params.get("charset", "utf-8").lower() != "utf-8":
        raise UnsupportedMediaType
    if (request.content_length or 0) > LARGEST_JSON or len(request.get_data()) > LARGEST_JSON:
        raise RequestEntityTooLarge
    try:
        text = request.get_data().decode("utf-8")
        return json.loads(text, object_pairs_hook=no_twins, parse_constant=no_number)
    except (ValueError, RecursionError):
        raise BadRequest(NOT_JSON) from None  # type: ignore[arg-type]


NOT_JSON = say("The body is not JSON in UTF-8, or it names a member twice.")


def no_twins(pairs: Iterable[tuple[str, Any]]) -> dict[str, Any]:
    """An object whose members have names of their own: of two alike, nobody could say which counts."""
    pairs = list(pairs)
    found = dict(pairs)
    if len(found) < len(pairs):
        raise ValueError("a member twice")
    return found


def no_number(name: str) -> NoReturn:
    """NaN and the infinities are no JSON, though Python reads them."""
    raise ValueError(name)
