"""Let every check look at what was just handed in, and keep what each one found."""

from __future__ import annotations

from uuid import uuid4

from hub.db.work import Work
from hub.vetting import checks, queries
from hub.vetting.finding import Finding
from hub.vetting.gathering import gather
from hub.vetting.models import FindingRecord, Submission
from hub.vetting.rules import Severity
from hub.words import NotFound


def examine(work: Work, submission: Submission) -> list[FindingRecord]:
    """Check the newest revision and store the findings, with their counts on the submission."""
    work.db.flush()
    revision = queries.newest_revision(work, submission)
    if revision is None:
        raise NotFound("revision")
    found = checks.findings(gather(work, submission, revision))
    records = [record_of(submission, each) for each in found]
    work.db.add_all(records)
    submission.open_stops = sum(each.severity is Severity.STOP for each in records)
    submission.open_queries = sum(each.severity is Severity.QUERY for each in records)
    return records


def record_of(submission: Submission, finding: Finding) -> FindingRecord:
    return FindingRecord(
        id=uuid4(),
        group_id=submission.group_id,
        bank_id=submission.bank_id,
        submission_id=submission.id,
        revision=submission.revision,
        check=finding.check,
        about=finding.about,
        severity=finding.severity,
        words=finding.words.as_json(),
        figures=dict(finding.figures),
        source=str(finding.source),
        reason="",
    )
