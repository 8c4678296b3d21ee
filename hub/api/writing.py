"""Answers: one resource, a whole list, a page of one with its links, a file, or nothing."""

from __future__ import annotations

import json
from typing import Any

from flask import Response, request, url_for

from hub.api import etags, sending
from hub.api.operation import Operation
from hub.db.work import Work
from hub.web.paging import Page


def told(operation: Operation, work: Work, result: Any) -> Response:
    """What the view returned, written."""
    if isinstance(result, Response):
        return result
    if operation.paged:
        return page_written(operation, result)
    body = body_for(operation, work, result)
    if operation.once:
        sending.remember(work, operation.status, body)
    return written_answer(operation, body)


def body_for(operation: Operation, work: Work, result: Any) -> Any:
    """The members of the answer; what the view has changed is stored first, so that defaults are there."""
    if operation.gives is None or operation.status == 204:
        return None
    work.db.flush()
    body = operation.gives.dump(result, many=operation.many)
    return {"items": body} if operation.many else body


def written_answer(operation: Operation, body: Any) -> Response:
    """A resource with its tag, and with its address when it was made just now."""
    if body is None:
        return Response(status=204)
    answer = as_json(body, operation.status)
    if operation.leads_to:
        answer.headers["Location"] = address(operation, body["id"])
    return etags.conditional(answer) if operation.reads else etags.tagged(answer)


def address(operation: Operation, made_id: str) -> str:
    """Where what was made is found: the operation that shows it has one argument, its id."""
    name = operation.leads_to
    return url_for(f".{name}", _external=True, **{f"{name}_id": made_id})


def page_written(operation: Operation, page: Page) -> Response:
    """A page of a list, with ``Link`` to its neighbours (RFC 8288)."""
    assert operation.gives is not None  # noqa: S101  a list always says of what
    answer = as_json({"items": operation.gives.dump(page.items, many=True), "next": page.next}, 200)
    links = [link("self", request.args.get("cursor")), link("first", None)]
    links += [link(rel, at) for rel, at in (("next", page.next), ("prev", page.previous)) if at]
    answer.headers["Link"] = ", ".join(links)
    return etags.conditional(answer)


def link(rel: str, cursor: str | None) -> str:
    query = {name: value for name, value in request.args.items() if name != "cursor"}
    if cursor:
        query["cursor"] = cursor
    address = url_for(str(request.endpoint), _external=True, **(request.view_args or {}), **query)
    return f'<{address}>; rel="{rel}"'


def as_json(body: Any, status: int) -> Response:
    """JSON in one order of members, so that equal answers have equal tags.

    Beyond ASCII everything is escaped: half a character pair, which JSON can spell, has no UTF-8.
    """
    return Response(json.dumps(body, sort_keys=True), status, content_type="application/json")
