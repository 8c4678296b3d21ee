"""Photographs of a submission: added, told apart, taken away and put back while its group may write."""

from __future__ import annotations

from datetime import datetime
from typing import Protocol
from uuid import UUID, uuid4

from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.work import Work
from hub.vetting import queries
from hub.vetting.actions.drafts import writable
from hub.vetting.models import Photograph, Submission
from hub.vetting.rules import MOST_PHOTOGRAPHS, PhotographKind
from hub.words import Refused, say

FIRST_CAMERA = 1990  # digital ones, that write down when a picture was taken
TOO_MANY = say("A hand-in holds at most {most} photographs. Take one away first.", most=MOST_PHOTOGRAPHS)


class Where(Protocol):
    """A camera's position, decimal degrees in WGS 84."""

    @property
    def latitude(self) -> float: ...
    @property
    def longitude(self) -> float: ...


class Picture(Protocol):
    """A photograph drawn anew: two files without anything hidden, and what its camera noted beside them."""

    @property
    def full(self) -> bytes: ...
    @property
    def thumbnail(self) -> bytes: ...
    @property
    def ending(self) -> str: ...
    @property
    def width(self) -> int: ...
    @property
    def height(self) -> int: ...
    @property
    def position(self) -> Where | None: ...
    @property
    def taken_at(self) -> datetime | None: ...


def add_photograph(
    work: Work, *, submission_id: UUID, kind: PhotographKind, upload: Picture, caption: str = ""
) -> Photograph:
    """Keep one photograph. Its position goes to the row alone, never into a file."""
    submission = writable(work, submission_id)
    check_room(work, submission)
    photograph = Photograph(
        id=uuid4(),
        group_id=submission.group_id,
        bank_id=submission.bank_id,
        submission_id=submission.id,
        kind=kind,
        caption=caption,
        file=work.files.keep(upload.full, kind="photographs", ending=upload.ending),
        thumbnail=work.files.keep(upload.thumbnail, kind="thumbnails", ending=upload.ending),
        width=upload.width,
        height=upload.height,
        latitude=upload.position.latitude if upload.position else None,
        longitude=upload.position.longitude if upload.position else None,
        taken_at=on_clock(work, upload.taken_at),
        added_at=work.now,
    )
    work.db.add(photograph)
    record(work, Event.PHOTOGRAPH_ADDED, photograph, after={"kind": str(kind)})
    return photograph


def check_room(work: Work, submission: Submission) -> None:
    if queries.count_photographs(work, submission.id) >= MOST_PHOTOGRAPHS:
        raise Refused(TOO_MANY, field="photographs")


def on_clock(work: Work, moment: datetime | None) -> datetime | None:
    """A camera that named no zone is read on the bank’s clock; one that was never set says nothing."""
    if moment is None or moment.year < FIRST_CAMERA:
        return None
    return moment if moment.tzinfo else moment.replace(tzinfo=work.zone)


def describe_photograph(work: Work, *, photograph_id: UUID, kind: PhotographKind, caption: str) -> Photograph:
    """Say what a photograph shows."""
    photograph = queries.get_photograph(work, photograph_id)
    writable(work, photograph.submission_id)
    photograph.kind, photograph.caption = kind, caption
    return photograph


def remove_photograph(work: Work, *, photograph_id: UUID) -> Photograph:
    """Take a photograph away; it can be put back."""
    photograph = queries.get_photograph(work, photograph_id)
    writable(work, photograph.submission_id)
    if photograph.removed_at is None:
        photograph.removed_at = work.now
        record(work, Event.PHOTOGRAPH_REMOVED, photograph, after={"removed": True})
    return photograph


def restore_photograph(work: Work, *, photograph_id: UUID) -> Photograph:
    """Put a photograph back that was taken away."""
    photograph = queries.get_photograph(work, photograph_id)
    submission = writable(work, photograph.submission_id)
    if photograph.removed_at is not None:
        check_room(work, submission)
        photograph.removed_at = None
        record(work, Event.PHOTOGRAPH_ADDED, photograph, after={"removed": False})
    return photograph
