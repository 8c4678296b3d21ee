"""The audit chain: each entry carries the digest of the one before it, so that a removal shows."""

from __future__ import annotations

from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import Index, String
from sqlalchemy.orm import Mapped, mapped_column

from hub.db.base import Base, Document, Long
from hub.db.tenancy import BANK, GROUP, Fence, Scoped, by_group_or_bank
from hub.rights.scope import Scope


class AuditEntry(Scoped, Base):
    """One change of state: who, what, when, before and after."""

    __tablename__ = "audit_entry"
    __table_args__ = (Index("ix_audit_entry_thing", "thing_kind", "thing_id"),)

    policy = f"bank_id = {BANK} or group_id = {GROUP}"
    policy_for_new = "true"
    policy_for_change = "false"
    append_only = True

    serial: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    at: Mapped[datetime]
    person_id: Mapped[UUID | None] = mapped_column(index=True)
    role: Mapped[str] = mapped_column(String(40), default="")
    group_id: Mapped[UUID | None] = mapped_column(index=True)
    bank_id: Mapped[UUID | None] = mapped_column(index=True)
    event: Mapped[str] = mapped_column(String(60))
    thing_kind: Mapped[str] = mapped_column(String(40))
    thing_id: Mapped[str] = mapped_column(String(40))
    before: Mapped[dict[str, Any]] = mapped_column(Document, default=dict)
    after: Mapped[dict[str, Any]] = mapped_column(Document, default=dict)
    reason: Mapped[Long]
    previous_digest: Mapped[str] = mapped_column(String(64))
    digest: Mapped[str] = mapped_column(String(64), unique=True)

    @classmethod
    def fence(cls, scope: Scope) -> Fence:
        return by_group_or_bank(scope)


class AuditHead(Base):
    """The newest link of the chain; its one row is locked while an entry is added."""

    __tablename__ = "audit_head"

    id: Mapped[int] = mapped_column(primary_key=True)
    serial: Mapped[int]
    digest: Mapped[str] = mapped_column(String(64))
