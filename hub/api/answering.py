"""The route of an operation: hold the pace, guard, read, do, answer, commit once."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import wraps
from typing import Any

from flask import Response, abort, g, request
from marshmallow import ValidationError

from hub.api import etags, pace, problems, sending
from hub.api.operation import Operation
from hub.api.reading import body_of, query_of
from hub.api.writing import as_json, told, written_answer
from hub.db.work import Work
from hub.rights.policy import may
from hub.web.caller import Caller, caller, house
from hub.words import Refused


def answering(operation: Operation) -> Callable[..., Response]:
    """Wrap the view of an operation into its route."""

    @wraps(operation.view)
    def answer(**args: Any) -> Response:
        asking = caller()
        scope = replace(asking.scope, because=operation.because) if operation.because else asking.scope
        with house().work(scope, zone=asking.zone, reads_only=operation.reads) as work:
            g.work = work
            pace.hold(work)
            check_right(asking, operation)
            response = done(operation, work, args)
            if not operation.reads and response.status_code < 400:
                work.db.commit()
            return response

    answer.needs, answer.because = operation.needs, operation.because  # type: ignore[attr-defined]
    return answer


def check_right(asking: Caller, operation: Operation) -> None:
    """401 without a key or with one that has ended, 403 for a seat that does not hold the right."""
    known = asking.scope.person_id is not None
    if not known and request.headers.get("Authorization"):
        abort(401)
    if not may(asking.scope, operation.needs):
        abort(403 if known else 401)


def done(operation: Operation, work: Work, args: dict[str, Any]) -> Response:
    """Do the operation, with what refuses turned into problems."""
    try:
        return carried_out(operation, work, args)
    except problems.Wrong as wrong:
        return wrong.answer
    except ValidationError as wrong_value:
        return problems.invalid(wrong_value)
    except Refused as refusal:
        return problems.refused(refusal)


def carried_out(operation: Operation, work: Work, args: dict[str, Any]) -> Response:
    """Read what was sent, and do it unless it was done before or the resource has changed meanwhile."""
    if operation.once:
        sending.check_key()
    sent = query_of(operation) | body_of(operation)
    if operation.once and (earlier := sending.answered_before(work)):
        return written_answer(operation, earlier.body["answer"])
    if operation.current is not None:
        etags.check_match(standing(operation, work, args))
    return told(operation, work, operation.view(work, **args, **sent))


def standing(operation: Operation, work: Work, args: dict[str, Any]) -> Response:
    """The resource as it stands, written as a reader gets it."""
    assert operation.current is not None  # noqa: S101  asked only of operations that have one
    assert operation.gives is not None  # noqa: S101  a declaration with one has the other
    body = operation.gives.dump(operation.current(work, **args), many=operation.many)
    return etags.tagged(as_json({"items": body} if operation.many else body, 200))
