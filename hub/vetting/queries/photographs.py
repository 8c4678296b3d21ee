"""Photographs of a submission: those there now, and those that went with one revision."""

from __future__ import annotations

from uuid import UUID

from sqlalchemy import func, or_, select

from hub.db.work import Work
from hub.groups.queries import there
from hub.vetting.models import Photograph, Revision


def get_photograph(work: Work, photograph_id: UUID, *, locked: bool = False) -> Photograph:
    """One photograph, removed or not. Raises NotFound."""
    found = select(Photograph).where(Photograph.id == photograph_id)
    return there(work.db.scalars(found.with_for_update() if locked else found).one_or_none(), photograph_id)


def photographs(work: Work, submission_id: UUID) -> list[Photograph]:
    """The photographs that a submission has now, in the order in which they came."""
    found = select(Photograph).where(
        Photograph.submission_id == submission_id, Photograph.removed_at.is_(None)
    )
    return list(work.db.scalars(found.order_by(Photograph.added_at, Photograph.id)))


def removed_photographs(work: Work, submission_id: UUID) -> list[Photograph]:
    """Those taken away, the last first: any can be put back."""
    found = select(Photograph).where(
        Photograph.submission_id == submission_id, Photograph.removed_at.is_not(None)
    )
    return list(work.db.scalars(found.order_by(Photograph.removed_at.desc(), Photograph.id)))


def photographs_of(work: Work, revision: Revision) -> list[Photograph]:
    """The photographs that went with one revision, whatever was added or taken away later."""
    at = revision.handed_in_at
    found = select(Photograph).where(
        Photograph.submission_id == revision.submission_id,
        Photograph.added_at <= at,
        or_(Photograph.removed_at.is_(None), Photograph.removed_at > at),
    )
    return list(work.db.scalars(found.order_by(Photograph.added_at, Photograph.id)))


def count_photographs(work: Work, submission_id: UUID) -> int:
    found = select(func.count()).select_from(Photograph)
    here = found.where(Photograph.submission_id == submission_id, Photograph.removed_at.is_(None))
    return work.db.scalar(here) or 0
