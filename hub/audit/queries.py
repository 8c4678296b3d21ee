"""Read the audit chain, and check it."""

from __future__ import annotations

from contextlib import closing
from typing import Any

from sqlalchemy import select

from hub.audit.models import AuditEntry, AuditHead
from hub.audit.rules import GENESIS, link
from hub.db.work import Work

FACTS = (
    "serial", "at", "person_id", "role", "group_id", "bank_id", "event", "thing_kind", "thing_id",
    "before", "after", "reason",
)  # fmt: skip


def facts_of(entry: AuditEntry) -> dict[str, Any]:
    """What an entry's digest is reckoned over, as plain JSON values."""
    facts = {name: getattr(entry, name) for name in FACTS}
    return facts | {
        "at": entry.at.isoformat(),
        **{name: str(facts[name] or "") for name in ("person_id", "group_id", "bank_id")},
    }


def first_broken_link(work: Work) -> int | None:
    """The serial of the first entry that does not follow from the one before it; None for a whole chain."""
    digest, serial = GENESIS, 0
    in_order = select(AuditEntry).order_by(AuditEntry.serial).execution_options(yield_per=500)
    with closing(work.db.scalars(in_order)) as entries:
        for entry in entries:
            whole = entry.serial == serial + 1 and entry.previous_digest == digest
            if not whole or entry.digest != link(digest, facts_of(entry)):
                return entry.serial
            digest, serial = entry.digest, entry.serial
    head = work.db.scalars(select(AuditHead)).one_or_none()
    ends_well = (head.digest, head.serial) == (digest, serial) if head else serial == 0
    return None if ends_well else serial + 1


def history_of(work: Work, *, thing_kind: str, thing_id: str) -> list[AuditEntry]:
    """What happened to one thing, oldest first, as far as this seat may see."""
    found = select(AuditEntry).where(AuditEntry.thing_kind == thing_kind, AuditEntry.thing_id == thing_id)
    return list(work.db.scalars(found.order_by(AuditEntry.serial)))
