"""Submissions with their revisions, remarks and findings, as this seat may see them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any
from uuid import UUID

from sqlalchemy import ColumnElement, Select, and_, or_, select
from sqlalchemy.orm import defer

from hub.db.work import Work
from hub.groups.queries import there
from hub.protocols.models import IssuedSheet, SheetState
from hub.sites.models import Population
from hub.taxa.models import Season, Taxon
from hub.vetting.collection import Collection
from hub.vetting.models import FindingRecord, Remark, Revision, Submission
from hub.vetting.rules import WRITABLE, SubmissionState

ORDERS: dict[str, Sequence[Any]] = {
    "newest": (Submission.begun_at.desc(), Submission.id),
    "oldest": (Submission.begun_at, Submission.id),
    "handed-in": (Submission.handed_in_at.desc(), Submission.id),
    "handed-in-up": (Submission.handed_in_at, Submission.id),
    "number": (Submission.number, Submission.id),
    "number-down": (Submission.number.desc(), Submission.id),
    "species": (Taxon.canonical, Submission.number, Submission.id),
    "species-down": (Taxon.canonical.desc(), Submission.number.desc(), Submission.id),
}


def get(work: Work, submission_id: UUID, *, locked: bool = False) -> Submission:
    """One submission. Raises NotFound. ``locked`` keeps others waiting until the commit."""
    found = select(Submission).where(Submission.id == submission_id)
    if locked:
        found = found.with_for_update().execution_options(populate_existing=True)
    return there(work.db.scalars(found).one_or_none(), submission_id)


def sent_with(work: Work, *, group_id: UUID, sent_key: str) -> Submission | None:
    """The submission that one sending of the form has made already."""
    found = select(Submission).where(Submission.group_id == group_id, Submission.sent_key == sent_key)
    return work.db.scalars(found).one_or_none()


def ours(
    work: Work, *, search: str | None = None, state: SubmissionState | None = None, taxon: UUID | None = None
) -> Select[Submission, Taxon, str]:
    """The submissions of the asker's group, each with its taxon and the code of its population."""
    found = (
        select(Submission, Taxon, Population.code)
        .join(Taxon, Taxon.id == Submission.taxon_id)
        .join(Population, Population.id == Submission.population_id)
        .where(Submission.group_id == work.scope.own_group_id)
    )
    if search:
        columns = (Submission.number, Taxon.canonical, Taxon.vernacular, Population.code)
        found = found.where(or_(*(column.icontains(search, autoescape=True) for column in columns)))
    if state is not None:
        found = found.where(Submission.state == state)
    return found.where(Submission.taxon_id == taxon) if taxon is not None else found


def taxa_handed_in(work: Work) -> list[Taxon]:
    """The species that the asker's group has written submissions of, by name."""
    mine = select(Submission.taxon_id).where(Submission.group_id == work.scope.own_group_id)
    return list(work.db.scalars(select(Taxon).where(Taxon.id.in_(mine)).order_by(Taxon.canonical)))


def open_hand_ins(work: Work) -> Sequence[tuple[Submission, Taxon]]:
    """What the asker's group has begun or got back and not handed in yet, the newest first."""
    found = ours(work).with_only_columns(Submission, Taxon).where(Submission.state.in_(WRITABLE))
    return work.db.execute(found.order_by(Submission.begun_at.desc(), Submission.id).limit(20)).all()


def under_sheet(work: Work, sheet_id: UUID) -> list[Submission]:
    """The submissions of one sheet, the newest first."""
    found = select(Submission).where(Submission.sheet_id == sheet_id)
    return list(work.db.scalars(found.order_by(Submission.begun_at.desc(), Submission.id)))


def revisions(work: Work, submission_id: UUID) -> list[Revision]:
    """What was handed in each time, the first first."""
    found = select(Revision).where(Revision.submission_id == submission_id)
    return list(work.db.scalars(found.order_by(Revision.number)))


def newest_revision(work: Work, submission: Submission) -> Revision | None:
    """What was handed in last; nothing for a submission that never was."""
    found = select(Revision).where(
        Revision.submission_id == submission.id, Revision.number == submission.revision
    )
    return work.db.scalars(found).one_or_none()


def handed_in_so_far(work: Work, submission: Submission) -> list[Collection]:
    """What each revision said, oldest first."""
    return [collection_of(each) for each in revisions(work, submission.id)]


def collection_of(revision: Revision) -> Collection:
    """A revision read back."""
    return Collection.from_document(revision.data)


def findings(work: Work, submission: Submission) -> list[FindingRecord]:
    """What the checks said of the newest revision, worst first."""
    found = select(FindingRecord).where(
        FindingRecord.submission_id == submission.id, FindingRecord.revision == submission.revision
    )
    rank = {"stop": 0, "query": 1, "note": 2}
    return sorted(work.db.scalars(found), key=lambda each: (rank[each.severity], each.check, each.about))


def shared_findings(work: Work, submission: Submission) -> list[FindingRecord]:
    """Those that the curator showed to the group."""
    return [each for each in findings(work, submission) if each.shared]


def remarks(work: Work, submission_id: UUID) -> list[Remark]:
    """What bank and group wrote to each other, the first first."""
    found = select(Remark).where(Remark.submission_id == submission_id)
    return list(work.db.scalars(found.order_by(Remark.at, Remark.id)))


def sheets_in_hand(work: Work) -> Sequence[tuple[IssuedSheet, Taxon, Population, int]]:
    """The sheets of the asker's group that may be collected by today, each with its species, population
    and the year of its season, by name."""
    found = sheets_with_names(work).where(holds_today(work))
    return work.db.execute(found.order_by(Taxon.canonical, Population.code, IssuedSheet.id)).all()


def sheets_put_away(work: Work, most: int = 20) -> Sequence[tuple[IssuedSheet, Taxon, Population, int]]:
    """The sheets of the asker's group that hold no longer, the newest first: what was collected while one
    held is still handed in under it."""
    found = sheets_with_names(work).where(~holds_today(work))
    newest = (Season.year.desc(), IssuedSheet.issued_at.desc(), IssuedSheet.id)
    return work.db.execute(found.order_by(*newest).limit(most)).all()


def holds_today(work: Work) -> ColumnElement[bool]:
    """In force, and in a season that has not closed."""
    return and_(IssuedSheet.state == SheetState.CURRENT, Season.closes_on >= work.today)


def sheets_with_names(work: Work) -> Select[IssuedSheet, Taxon, Population, int]:
    """Every sheet of the asker's group without its body, with species, population and year."""
    return (
        select(IssuedSheet, Taxon, Population, Season.year)
        .options(defer(IssuedSheet.body), defer(IssuedSheet.case))
        .join(Taxon, Taxon.id == IssuedSheet.taxon_id)
        .join(Population, Population.id == IssuedSheet.population_id)
        .join(Season, Season.id == IssuedSheet.season_id)
        .where(IssuedSheet.group_id == work.scope.own_group_id)
    )
