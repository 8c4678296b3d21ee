"""Idempotency-Key: a request that is sent again after a broken line gets the answer of the first.

The key is stored in the same transaction as the change, so the two live or die together. A second request
with the same key waits for the first on the unique row, and then reads its answer.
(draft-ietf-httpapi-idempotency-key-header-07)
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from hashlib import sha256
from typing import Any

from flask import request
from sqlalchemy import delete, select
from sqlalchemy.dialects import postgresql, sqlite

from hub.api.models import AnsweredRequest
from hub.api.problems import Wrong, problem
from hub.db.work import Work
from hub.words import say

HEADER = "Idempotency-Key"
LONGEST = 255
KEPT = timedelta(days=2)
UNANSWERED = 0
MISSING = say("Send an Idempotency-Key of 1 to {most} plain signs with this request.", most=LONGEST)
OTHER = say("This Idempotency-Key was used for another request.")


def key_sent() -> str:
    """The key, with or without the quotes that a structured field has."""
    return request.headers.get(HEADER, "").strip().strip('"')


def check_key() -> None:
    """Refuse a request without a usable key."""
    key = key_sent()
    if not 1 <= len(key) <= LONGEST or not (key.isascii() and key.isprintable()):
        raise Wrong(problem(400, MISSING))


def answered_before(work: Work) -> AnsweredRequest | None:
    """Claim the key. The earlier answer when there is one; refuses a key that was for something else."""
    insert = postgresql.insert if work.db.get_bind().dialect.name == "postgresql" else sqlite.insert
    asked = digest(work)
    claim = insert(AnsweredRequest).values(
        person_id=work.scope.person_id, key=key_sent(), what=asked, status=UNANSWERED, body={}, at=work.now
    )
    claimed = claim.on_conflict_do_nothing(index_elements=["person_id", "key"]).returning(AnsweredRequest.id)
    if work.db.execute(claimed).first():
        return None
    earlier = found(work)
    if earlier.what != asked:
        raise Wrong(problem(422, OTHER))
    return earlier


def digest(work: Work) -> str:
    """What was asked, and in which seat: equal for the same request alone."""
    seat = f"{work.scope.role} {work.scope.group_id} {work.scope.bank_id}"
    whole = sha256(f"{seat} {request.method} {request.full_path}\n".encode())
    for part in parts_sent():
        whole.update(sha256(part).digest())
    return whole.hexdigest()


def parts_sent() -> Iterator[bytes]:
    """The body; of a form its fields and files, since what stands between them changes with each sending."""
    if request.mimetype != "multipart/form-data":
        yield request.get_data()
        return
    for name, text in request.form.items(multi=True):
        yield f"{name}={text}".encode("utf-8", "replace")
    for name, upload in request.files.items(multi=True):
        upload.stream.seek(0)
        yield name.encode("utf-8", "replace") + b"=" + upload.stream.read()
        upload.stream.seek(0)


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
