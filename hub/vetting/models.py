"""Submissions with their frozen revisions, photographs, findings and remarks."""

from __future__ import annotations

from datetime import UTC, date, datetime
from typing import Any
from uuid import UUID

from sqlalchemy import ForeignKey, Index, String, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column, validates

from hub.db.base import Base, Document, Key, Long, Short, choice
from hub.db.tenancy import BankOwned, GroupOwned, tenant_key
from hub.vetting.rules import (
    LAST_RANK,
    FindingState,
    PhotographKind,
    RemarkKind,
    Severity,
    SubmissionState,
    Urgency,
)

ENDLESS = datetime(9999, 12, 31, tzinfo=UTC)


class Submission(GroupOwned, Base):
    """A collection handed in, or about to be. What was handed in lives in its revisions."""

    __tablename__ = "submission"
    __table_args__ = (
        GroupOwned.of_group(),
        GroupOwned.inside("sheet", "sheet_id"),
        GroupOwned.inside("adoption", "adoption_id"),
        BankOwned.inside("population", "population_id"),
        tenant_key("group_id"),
        UniqueConstraint("group_id", "sent_key"),
        # The queue in its order, and what it may be narrowed by: each found without reading the queue.
        Index("ix_submission_queue", "bank_id", "state", "urgency_rank", "queue_at", "id"),
        Index("ix_submission_queue_taxon", "bank_id", "state", "taxon_id"),
        Index("ix_submission_queue_group", "bank_id", "state", "group_id"),
    )

    id: Mapped[Key]
    number: Mapped[str] = mapped_column(String(40), unique=True)
    sheet_id: Mapped[UUID] = mapped_column(index=True)
    adoption_id: Mapped[UUID] = mapped_column(index=True)
    population_id: Mapped[UUID] = mapped_column(index=True)
    taxon_id: Mapped[UUID] = mapped_column(ForeignKey("taxon.id"), index=True)
    state: Mapped[SubmissionState] = mapped_column(choice(SubmissionState), default=SubmissionState.DRAFT)
    sent_key: Mapped[str] = mapped_column(
        String(80)
    )  # made with the form: sending twice makes one submission
    draft: Mapped[dict[str, Any]] = mapped_column(Document, default=dict)  # as typed, until it is handed in
    revision: Mapped[int] = mapped_column(default=0)  # number of the newest revision; 0 while a draft
    urgency: Mapped[Urgency] = mapped_column(choice(Urgency), default=Urgency.DRY)
    urgency_rank: Mapped[int] = mapped_column(default=LAST_RANK)
    said_arrived_on: Mapped[date | None]  # the day on which the group says that it brought the seed
    arrived_at: Mapped[datetime | None]  # when the bank had the seed in its hands
    arrived_by: Mapped[UUID | None]  # who recorded that
    arrival_note: Mapped[Long]  # the condition it was in
    deadline_at: Mapped[datetime | None]  # when the seed should be at the bank, by its sheet
    queue_at: Mapped[datetime] = mapped_column(default=ENDLESS)  # the deadline; none comes last
    open_stops: Mapped[int] = mapped_column(default=0)  # counts of the newest revision's open findings
    open_queries: Mapped[int] = mapped_column(default=0)
    begun_at: Mapped[datetime]
    handed_in_at: Mapped[datetime | None]
    decided_at: Mapped[datetime | None]
    decided_by: Mapped[UUID | None]
    version: Mapped[int] = mapped_column()

    __mapper_args__ = {"version_id_col": version}

    @validates("deadline_at")
    def place_in_queue(self, name: str, deadline: datetime | None) -> datetime | None:
        """A queue is sorted by a column that is never empty, so that its index serves it whole."""
        self.queue_at = deadline or ENDLESS
        return deadline


class Revision(GroupOwned, Base):
    """What was handed in at one time: never edited. A return makes the next one."""

    __tablename__ = "revision"
    __table_args__ = (
        GroupOwned.of_group(),
        GroupOwned.inside("submission", "submission_id"),
        UniqueConstraint("submission_id", "number"),
    )

    id: Mapped[Key]
    submission_id: Mapped[UUID] = mapped_column(index=True)
    number: Mapped[int]
    data: Mapped[dict[str, Any]] = mapped_column(Document)  # as vetting.schemas.CollectionSchema dumps it
    handed_in_at: Mapped[datetime]
    handed_in_by: Mapped[UUID | None]


class Photograph(GroupOwned, Base):
    """A picture, re-encoded and without its EXIF; where and when it was taken is kept apart, privately."""

    __tablename__ = "photograph"
    __table_args__ = (GroupOwned.of_group(), GroupOwned.inside("submission", "submission_id"))

    id: Mapped[Key]
    submission_id: Mapped[UUID] = mapped_column(index=True)
    kind: Mapped[PhotographKind] = mapped_column(choice(PhotographKind))
    caption: Mapped[Short] = mapped_column(default="")
    file: Mapped[Short]
    thumbnail: Mapped[Short]
    width: Mapped[int]
    height: Mapped[int]
    latitude: Mapped[float | None]
    longitude: Mapped[float | None]
    taken_at: Mapped[datetime | None]
    added_at: Mapped[datetime]
    removed_at: Mapped[datetime | None]


class FindingRecord(GroupOwned, Base):
    """What one check said of one revision, and what the curator made of it."""

    __tablename__ = "finding"
    __table_args__ = (
        GroupOwned.of_group(),
        GroupOwned.inside("submission", "submission_id"),
        UniqueConstraint("submission_id", "revision", "check", "about"),
        Index("ix_finding_alike", "bank_id", "check", "state"),
        Index("ix_finding_submission", "bank_id", "submission_id"),
    )

    id: Mapped[Key]
    submission_id: Mapped[UUID] = mapped_column(index=True)
    revision: Mapped[int]
    check: Mapped[str] = mapped_column(String(60))
    about: Mapped[str] = mapped_column(String(60), default="")  # the mother or photograph it is about, if one
    severity: Mapped[Severity] = mapped_column(choice(Severity))
    words: Mapped[dict[str, Any]] = mapped_column(Document)  # Words.as_json
    figures: Mapped[dict[str, Any]] = mapped_column(Document, default=dict)
    source: Mapped[Long]
    state: Mapped[FindingState] = mapped_column(choice(FindingState), default=FindingState.OPEN)
    reason: Mapped[Long]
    shared: Mapped[bool] = mapped_column(default=False)  # the curator showed it to the group
    settled_at: Mapped[datetime | None]
    settled_by: Mapped[UUID | None]


class Remark(GroupOwned, Base):
    """What curator and group write to each other about a submission."""

    __tablename__ = "remark"
    __table_args__ = (GroupOwned.of_group(), GroupOwned.inside("submission", "submission_id"))

    id: Mapped[Key]
    submission_id: Mapped[UUID] = mapped_column(index=True)
    kind: Mapped[RemarkKind] = mapped_column(choice(RemarkKind))
    text: Mapped[Long]
    at: Mapped[datetime]
    by: Mapped[UUID | None]
    by_name: Mapped[Short]
    from_bank: Mapped[bool]
