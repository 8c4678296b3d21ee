"""Requests that were answered, so that one sent twice is done once."""

from __future__ import annotations

from datetime import datetime
from typing import Any
from uuid import UUID

from sqlalchemy import String, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from hub.db.base import Base, Document, Key


class AnsweredRequest(Base):
    """One request with an Idempotency-Key, by the person who sent it, and the answer it got."""

    __tablename__ = "answered_request"
    __table_args__ = (UniqueConstraint("person_id", "key"),)

    id: Mapped[Key]
    person_id: Mapped[UUID]
    key: Mapped[str] = mapped_column(String(255))
    what: Mapped[str] = mapped_column(String(64))  # digest of method, path and body
    status: Mapped[int]
    body: Mapped[dict[str, Any]] = mapped_column(Document)
    at: Mapped[datetime] = mapped_column(index=True)
