"""Idempotency-Key: a request that is sent again after a broken line gets the answer of the first.

The key is stored in the same transaction as the change, so the two live or die together. A second request
with the same key waits for the first on the unique row, and then reads its answer.
(draft-ietf-httpapi-idempotency-key-header-07)
"""

from __future__ import annotations

from datetime import timedelta
from hashlib import sha256
from typing import Any

from flask import Response, request
from sqlalchemy import delete, select
from sqlalchemy.dialects import postgresql, sqlite

from hub.api.models import AnsweredRequest
from hub.api.problems import problem
from hub.db.work import Work

HEADER = "Idempotency-Key"
LONGEST = 255
KEPT = timedelta(days=2)
UNANSWERED = 0


def key_sent() -> str:
    """The key, with or without the quotes that a structured field has."""
    return request.headers.get(HEADER, "").strip().strip('"')


def key_problem() -> Response | None:
    """What is wrong with the key, if anything."""
    if not key_sent():
        return problem(400, f"Send an {HEADER} with this request.")
    if len(key_sent()) > LONGEST:
        return problem(400, f"An {HEADER} has at most {LONGEST} characters.")
    return None


def digest() -> str:
    """What was asked: equal for the same request alone."""
    return sha256(f"{request.method} {request.full_path}\n".encode() + request.get_data()).hexdigest()


def answered_before(work: Work) -> AnsweredRequest | Response | None:
    """Claim the key. The earlier answer when there is one, a problem when the key was for something else."""
    insert = postgresql.insert if work.db.get_bind().dialect.name == "postgresql" else sqlite.insert
    claim = insert(AnsweredRequest).values(
        person_id=work.scope.person_id, key=key_sent(), what=digest(), status=UNANSWERED, body={}, at=work.now
    )
    claimed = claim.on_conflict_do_nothing(index_elements=["person_id", "key"]).returning(AnsweredRequest.id)
    if work.db.execute(claimed).first():
        return None
    earlier = found(work)
    if earlier.what != digest():
        return problem(422, f"This {HEADER} was used for another request.")
    return earlier


def found(work: Work) -> AnsweredRequest:
    asked = select(AnsweredRequest).where(
        AnsweredRequest.person_id == work.scope.person_id, AnsweredRequest.key == key_sent()
    )
    return work.db.scalars(asked).one()


def remember(work: Work, status: int, body: Any) -> None:
    """Keep the answer beside its key, and forget those that nobody will ask for again."""
    row = found(work)
    row.status, row.body = status, {"answer": body}
    work.db.execute(delete(AnsweredRequest).where(AnsweredRequest.at < work.now - KEPT))
