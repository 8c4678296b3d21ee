"""People, their sessions and tokens, and the letters the hub sends them."""

from __future__ import annotations

from datetime import datetime
from enum import StrEnum
from uuid import UUID

from sqlalchemy import ForeignKey, Index, String
from sqlalchemy.orm import Mapped, mapped_column

from hub.db.base import Base, Key, Long, Short, choice


class Person(Base):
    """An adult with an account. Pupils never have one."""

    __tablename__ = "person"

    id: Mapped[Key]
    email: Mapped[str] = mapped_column(String(254), unique=True)  # kept in lower case
    name: Mapped[Short]
    password_hash: Mapped[str] = mapped_column(String(200))
    created_at: Mapped[datetime]
    closed_at: Mapped[datetime | None]


class SignIn(Base):
    """One session on one device. The cookie carries a random token; only its digest is stored."""

    __tablename__ = "sign_in"

    id: Mapped[Key]
    person_id: Mapped[UUID] = mapped_column(ForeignKey("person.id"), index=True)
    token_digest: Mapped[str] = mapped_column(String(64), unique=True)
    seat_id: Mapped[UUID | None]  # the seat the person works in; checked against their seats at each request
    device: Mapped[Short]
    started_at: Mapped[datetime]
    seen_at: Mapped[datetime]
    ends_at: Mapped[datetime]
    ended_at: Mapped[datetime | None]
    factor_at: Mapped[datetime | None]  # when the second factor was last shown in this session


class SecondFactor(Base):
    """What makes a person's codes (RFC 6238). Until a first code has confirmed it, it counts for nothing."""

    __tablename__ = "second_factor"

    person_id: Mapped[UUID] = mapped_column(ForeignKey("person.id"), primary_key=True)
    sealed_secret: Mapped[str] = mapped_column(String(400))  # see hub/accounts/sealing.py
    confirmed_at: Mapped[datetime | None]
    last_step: Mapped[int] = mapped_column(default=0)  # of the newest code taken: none up to it again


class RecoveryCode(Base):
    """One of the codes for the day the phone is lost: 120 random bits, of which a digest is kept."""

    __tablename__ = "recovery_code"

    id: Mapped[Key]
    person_id: Mapped[UUID] = mapped_column(ForeignKey("person.id"), index=True)
    digest: Mapped[str] = mapped_column(String(64), unique=True)
    used_at: Mapped[datetime | None]


class ResetLink(Base):
    """A mailed link to choose a new password: short-lived, used once."""

    __tablename__ = "reset_link"

    id: Mapped[Key]
    person_id: Mapped[UUID] = mapped_column(ForeignKey("person.id"), index=True)
    token_digest: Mapped[str] = mapped_column(String(64), unique=True)
    ends_at: Mapped[datetime]
    used_at: Mapped[datetime | None]


class ApiToken(Base):
    """A key for programs, tied to one seat of one person; shown once, stored as a digest."""

    __tablename__ = "api_token"

    id: Mapped[Key]
    person_id: Mapped[UUID] = mapped_column(ForeignKey("person.id"), index=True)
    seat_id: Mapped[UUID]
    name: Mapped[Short]
    token_digest: Mapped[str] = mapped_column(String(64), unique=True)
    created_at: Mapped[datetime]
    used_at: Mapped[datetime | None]
    ends_at: Mapped[datetime]
    ended_at: Mapped[datetime | None]


class LetterState(StrEnum):
    """Where a letter stands."""

    WAITING = "waiting"
    SENT = "sent"
    FAILED = "failed"


class Letter(Base):
    """One letter by mail, written in the same transaction as the change it tells of, delivered after it."""

    __tablename__ = "letter"
    __table_args__ = (Index("ix_letter_due", "state", "due_at"),)

    id: Mapped[Key]
    to: Mapped[str] = mapped_column(String(254))
    subject: Mapped[Short]
    body: Mapped[Long]
    state: Mapped[LetterState] = mapped_column(choice(LetterState), default=LetterState.WAITING)
    written_at: Mapped[datetime]
    due_at: Mapped[datetime]
    tries: Mapped[int] = mapped_column(default=0)
    trouble: Mapped[Long]
