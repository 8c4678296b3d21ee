"""Many submissions, written straight into the tables as copies of those that the demo handed in."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from itertools import cycle, islice
from typing import Any
from uuid import uuid4

from sqlalchemy import func, insert, inspect, select

from hub.bench.stage import EVERYONE
from hub.db.work import House, Work
from hub.vetting.models import FindingRecord, Submission
from hub.vetting.rules import SubmissionState

AT_ONCE = 5_000  # rows in one statement
Row = dict[str, Any]


def crowd(house: House, *, submissions: int) -> None:
    """Add copies until this many wait on the bench, each with the findings of the one it copies."""
    with house.work(EVERYONE) as work:
        waiting = select(func.count()).where(Submission.state == SubmissionState.HANDED_IN)
        missing = submissions - (work.db.scalar(waiting) or 0)
        originals = cycle(originals_of(work))
        for begin in range(0, missing, AT_ONCE):
            add_copies(work, list(islice(originals, min(AT_ONCE, missing - begin))), begin)
        work.db.commit()


def originals_of(work: Work) -> list[tuple[Row, list[Row]]]:
    """What waits on the bench with the largest queue, and its findings."""
    waiting = Submission.state == SubmissionState.HANDED_IN
    banks = select(Submission.bank_id).where(waiting).group_by(Submission.bank_id)
    largest = banks.order_by(func.count().desc()).limit(1).scalar_subquery()
    rows = work.db.scalars(select(Submission).where(waiting, Submission.bank_id == largest)).all()
    return [(row_of(each), findings_of(work, each)) for each in rows]


def findings_of(work: Work, submission: Submission) -> list[Row]:
    rows = select(FindingRecord).where(FindingRecord.submission_id == submission.id)
    return [row_of(each) for each in work.db.scalars(rows)]


def row_of(thing: Any) -> Row:
    """A stored row by the names of its columns."""
    return {each.key: getattr(thing, each.key) for each in inspect(type(thing)).column_attrs}


def add_copies(work: Work, originals: list[tuple[Row, list[Row]]], begin: int) -> None:
    """Write copies with ids and numbers of their own, handed in a minute apart."""
    submissions: list[Row] = []
    findings: list[Row] = []
    for place, (original, its_findings) in enumerate(originals, start=begin):
        copy = {**original, "id": uuid4(), "number": f"COPY-{place}", "sent_key": f"copy-{place}"}
        for name in ("begun_at", "handed_in_at"):
            copy[name] += timedelta(minutes=place)
        if copy["deadline_at"] is not None:
            copy["deadline_at"] = copy["queue_at"] = copy["deadline_at"] + timedelta(minutes=place)
        submissions.append(copy)
        findings += copied(its_findings, copy)
    work.db.execute(insert(Submission), submissions)
    work.db.execute(insert(FindingRecord), findings)


def copied(findings: list[Row], submission: Row) -> Iterator[Row]:
    """The findings of an original, of its copy."""
    for finding in findings:
        yield {**finding, "id": uuid4(), "submission_id": submission["id"]}
