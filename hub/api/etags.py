"""Entity tags: the digest of what a resource says, and the guard that a change is of what was read."""

from __future__ import annotations

from hashlib import sha256

from flask import Response, request

from hub.api.problems import Wrong, problem
from hub.words import say

READ_FIRST = say("Send If-Match with the tag that you read.")
CHANGED = say("This was changed after you read it. Read it again.")


def tagged(answer: Response) -> Response:
    """An answer with a strong tag: equal for equal answers alone."""
    answer.set_etag(sha256(answer.get_data()).hexdigest()[:32])
    return answer


def conditional(answer: Response) -> Response:
    """Tag an answer; one that the reader has already is answered 304 without its body."""
    tagged(answer).make_conditional(request)
    return answer


def check_match(standing: Response) -> None:
    """Refuse a change with 428 without If-Match, with 412 when the resource is no longer what was read."""
    if not request.headers.get("If-Match"):
        raise Wrong(problem(428, READ_FIRST))
    tag, _ = standing.get_etag()
    if not request.if_match.contains(tag or ""):
        raise Wrong(problem(412, CHANGED))
