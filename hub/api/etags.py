"""Entity tags: the digest of what a resource says, and the guard that a change is of what was read."""

from __future__ import annotations

from hashlib import sha256

from flask import Response, request

from hub.api.problems import problem


def tag_of(body: bytes) -> str:
    """A strong tag: equal for equal answers alone."""
    return sha256(body).hexdigest()[:32]


def conditional(answer: Response) -> Response:
    """Tag an answer; one that the reader has already is answered 304 without its body."""
    answer.set_etag(tag_of(answer.get_data()))
    answer.make_conditional(request)
    return answer


def precondition(current: bytes) -> Response | None:
    """What speaks against a change: 428 without If-Match, 412 when the resource has changed since."""
    if not request.headers.get("If-Match"):
        return problem(428, "Send If-Match with the tag that you read.")
    if not request.if_match.contains(tag_of(current)):
        return problem(412, "This was changed after you read it. Read it again.")
    return None
