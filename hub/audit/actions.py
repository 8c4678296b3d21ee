"""Add to the audit chain."""

from __future__ import annotations

from typing import Any

from sqlalchemy import select

from hub.audit.listeners import tell
from hub.audit.models import AuditEntry, AuditHead
from hub.audit.queries import facts_of
from hub.audit.rules import GENESIS, Event, link
from hub.db.base import Base
from hub.db.work import Work


def record(
    work: Work,
    event: Event,
    thing: Base,
    *,
    before: dict[str, Any] | None = None,
    after: dict[str, Any] | None = None,
    reason: str = "",
) -> None:
    """Record one event about one row, in the same transaction as the change itself.

    ``before`` and ``after`` hold the changed fields alone, as plain JSON values; never passwords, tokens or
    exact coordinates. The row's own group and bank decide who may read the entry later.
    """
    head = locked_head(work)
    entry = AuditEntry(
        serial=head.serial + 1,
        at=work.now,
        person_id=work.scope.person_id,
        role=str(work.scope.role or ""),
        group_id=getattr(thing, "group_id", None) or work.scope.own_group_id,
        bank_id=getattr(thing, "bank_id", None) or work.scope.bank_id,
        event=str(event),
        thing_kind=thing.__tablename__,
        thing_id=str(getattr(thing, "id", "")),
        before=before or {},
        after=after or {},
        reason=reason,
        previous_digest=head.digest,
    )
    entry.digest = link(head.digest, facts_of(entry))
    head.serial, head.digest = entry.serial, entry.digest
    work.db.add(entry)
    tell(work, event, thing)


def locked_head(work: Work) -> AuditHead:
    """The newest link, locked until the work is committed, so that the chain never forks."""
    work.db.flush()  # the audited row must stand before the chain's lock is taken
    head = work.db.scalars(select(AuditHead).with_for_update()).one_or_none()
    if head is None:
        head = AuditHead(id=1, serial=0, digest=GENESIS)
        work.db.add(head)
    return head
