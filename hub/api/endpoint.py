"""How an operation of the API is declared: what it needs, takes and gives, all in one place.

The declaration guards the route, reads and checks what was sent, dumps what the view returns, and is what the
OpenAPI document is written from, so that document and behaviour cannot part.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import wraps
from typing import Any, TypeVar

from flask import Blueprint, Response, abort, g, json, request, url_for
from marshmallow import Schema, ValidationError
from werkzeug.exceptions import BadRequest, UnsupportedMediaType

from hub.api import etags, problems, sending
from hub.db.work import Work
from hub.rights.policy import may
from hub.rights.right import Right
from hub.web.caller import caller, house
from hub.web.paging import Page
from hub.words import Refused

View = TypeVar("View", bound=Callable[..., Any])
MERGE_PATCH = "application/merge-patch+json"


@dataclass(frozen=True)
class Operation:
    """One method on one path.

    ``asks`` reads the query, ``takes`` the body, ``gives`` writes the answer. ``current`` gives the resource
    as it stands, for If-Match. ``once`` asks for an Idempotency-Key.
    """

    method: str
    path: str
    summary: str
    needs: Right
    view: Callable[..., Any]
    asks: Schema | None = None
    takes: Schema | None = None
    gives: Schema | None = None
    status: int = 200
    paged: bool = False
    current: Callable[..., Any] | None = None
    once: bool = False
    binary: str = ""  # media type of an answer that is a file


class Api(Blueprint):
    """A blueprint whose operations are declared whole."""

    def __init__(self, name: str, import_name: str, **options: Any) -> None:
        super().__init__(name, import_name, **options)
        self.operations: list[Operation] = []

    def operation(
        self, method: str, path: str, *, needs: Right, summary: str, **traits: Any
    ) -> Callable[[View], View]:
        """Declare one. ``path`` is a Flask rule below the API's own."""

        def declare(view: View) -> View:
            operation = Operation(method, path, summary, needs, view, **traits)
            self.operations.append(operation)
            self.add_url_rule(path, view.__name__, answering(operation), methods=[method])
            return view

        return declare


def answering(operation: Operation) -> Callable[..., Response]:
    """The route of an operation: guard, read, do, answer, commit once."""

    @wraps(operation.view)
    def answer(**args: Any) -> Response:
        asking = caller()
        if not may(asking.scope, operation.needs):
            abort(403 if asking.scope.person_id else 401)
        reads = operation.method == "GET"
        with house().work(asking.scope, zone=asking.zone, reads_only=reads) as work:
            g.work = work
            response = done(operation, work, args)
            if not reads and response.status_code < 400:
                work.db.commit()
            return response

    answer.needs = operation.needs  # type: ignore[attr-defined]
    return answer


def done(operation: Operation, work: Work, args: dict[str, Any]) -> Response:
    """Do the operation, with what refuses turned into problems."""
    try:
        if operation.once and (wrong := sending.key_problem()):
            return wrong
        sent = read(operation)
        if operation.once:
            earlier = sending.answered_before(work)
            if isinstance(earlier, Response):
                return earlier
            if earlier is not None:
                return written(earlier.body["answer"], earlier.status)
        if operation.current and (stale := changed_since(operation, work, args)):
            return stale
        return told(operation, work, operation.view(work, **args, **sent))
    except ValidationError as wrong_value:
        return problems.invalid(wrong_value)
    except Refused as refusal:
        return problems.refused(refusal)


def changed_since(operation: Operation, work: Work, args: dict[str, Any]) -> Response | None:
    """Hold If-Match against the resource as it stands."""
    assert operation.current is not None  # noqa: S101  asked only of operations that have one
    assert operation.gives is not None  # noqa: S101  a declaration with one has the other
    standing = operation.gives.dump(operation.current(work, **args))
    return etags.precondition(written(standing, 200).get_data())


def read(operation: Operation) -> dict[str, Any]:
    """Query and body, checked by their schemas."""
    found: dict[str, Any] = {}
    if operation.asks is not None:
        found["query"] = operation.asks.load(request.args.to_dict())
    if operation.takes is not None:
        found["sent"] = operation.takes.load(body_sent())
    return found


def body_sent() -> Any:
    """The JSON that was sent. Raises BadRequest or UnsupportedMediaType for anything else."""
    if not (request.is_json or request.mimetype == MERGE_PATCH):
        raise UnsupportedMediaType("Send application/json.")
    try:
        return json.loads(request.get_data().decode("utf-8"))
    except (ValueError, RecursionError):
        raise BadRequest("The body is not JSON.") from None


def told(operation: Operation, work: Work, result: Any) -> Response:
    """The answer: a file, a page of a list with its links, one resource, or nothing."""
    if isinstance(result, Response):
        return result
    if operation.paged:
        return page_written(operation, result)
    if operation.gives is None:
        body: Any = None
    else:
        work.db.flush()
        body = operation.gives.dump(result)
    if operation.once:
        sending.remember(work, operation.status, body)
    answer = written(body, operation.status)
    return etags.conditional(answer) if operation.method == "GET" else answer


def page_written(operation: Operation, page: Page) -> Response:
    """A page of a list, with ``Link`` to its neighbours (RFC 8288)."""
    assert operation.gives is not None  # noqa: S101  a list always says of what
    answer = written({"items": operation.gives.dump(page.items, many=True), "next": page.next}, 200)
    links = [link("self", request.args.get("cursor"))]
    links += [link(rel, at) for rel, at in (("next", page.next), ("prev", page.previous)) if at]
    answer.headers["Link"] = ", ".join(links)
    return etags.conditional(answer)


def link(rel: str, cursor: str | None) -> str:
    query = {name: value for name, value in request.args.items() if name != "cursor"}
    if cursor:
        query["cursor"] = cursor
    address = url_for(str(request.endpoint), _external=True, **(request.view_args or {}), **query)
    return f'<{address}>; rel="{rel}"'


def written(body: Any, status: int) -> Response:
    """JSON, always in the same order of members, so that equal answers have equal tags."""
    if body is None:
        return Response(status=204 if status == 200 else status)
    text = json.dumps(body, sort_keys=True, ensure_ascii=False)
    return Response(text, status, content_type="application/json; charset=utf-8")
