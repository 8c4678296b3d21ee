"""What a curator does with a submission: settle findings, send it back, decline it."""

from __future__ import annotations

from collections.abc import Iterable
from uuid import UUID

from sqlalchemy import func, select

from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.work import Work
from hub.vetting import queries
from hub.vetting.actions.moves import NOT_NOW, move, remark, tell_group
from hub.vetting.models import FindingRecord, Submission
from hub.vetting.rules import FindingState, RemarkKind, Severity, SubmissionState
from hub.words import NotFound, Refused, Words, say

NEEDS_A_REASON = say("Please say why: whoever reads this later must understand it.")


def settle(work: Work, *, finding_ids: Iterable[UUID], state: FindingState, reason: str = "") -> int:
    """Resolve or overrule findings together, or open them again. Returns how many have changed.

    Overruling needs a reason. Raises Refused when one of them belongs to nothing that waits for the bank.
    """
    if state is FindingState.OVERRULED and not reason.strip():
        raise Refused(NEEDS_A_REASON, field="reason")
    records = locked_findings(work, set(finding_ids))
    submissions = {each: waiting(work, each) for each in sorted({each.submission_id for each in records})}
    changed = [each for each in records if each.state is not state]
    for each in changed:
        settle_one(work, submissions[each.submission_id], each, state, reason)
    for submission in submissions.values():
        recount(work, submission)
    return len(changed)


def locked_findings(work: Work, finding_ids: set[UUID]) -> list[FindingRecord]:
    """The findings, in a fixed order so that locks never cross. Raises NotFound when one is missing."""
    found = select(FindingRecord).where(FindingRecord.id.in_(finding_ids)).order_by(FindingRecord.id)
    records = list(work.db.scalars(found.with_for_update()))
    if len(records) < len(finding_ids):
        raise NotFound("finding")
    return records


def waiting(work: Work, submission_id: UUID) -> Submission:
    """A submission that waits for the bank, locked. Raises Refused for any other."""
    submission = queries.get(work, submission_id, locked=True)
    if submission.state is not SubmissionState.HANDED_IN:
        raise Refused(NOT_NOW[submission.state])
    return submission


def settle_one(
    work: Work, submission: Submission, finding: FindingRecord, state: FindingState, reason: str
) -> None:
    if finding.revision != submission.revision:
        raise Refused(say("This finding is about an earlier revision."))
    before, finding.state = finding.state, state
    opened = state is FindingState.OPEN
    finding.reason = "" if opened else reason
    finding.settled_at, finding.settled_by = (None, None) if opened else (work.now, work.scope.person_id)
    record(
        work,
        Event.FINDING_SETTLED,
        finding,
        before={"state": str(before)},
        after={"state": str(state), "check": finding.check},
        reason=reason,
    )


def recount(work: Work, submission: Submission) -> None:
    """Keep the counts of open findings that the queue is read from."""
    rows = (
        select(FindingRecord.severity, func.count())
        .where(
            FindingRecord.submission_id == submission.id,
            FindingRecord.revision == submission.revision,
            FindingRecord.state == FindingState.OPEN,
        )
        .group_by(FindingRecord.severity)
    )
    open_now = dict(work.db.execute(rows).all())
    submission.open_stops = open_now.get(Severity.STOP, 0)
    submission.open_queries = open_now.get(Severity.QUERY, 0)


def send_back(
    work: Work, *, submission_id: UUID, remarks: str, finding_ids: Iterable[UUID] = ()
) -> Submission:
    """Return a submission to its group with what it should mend, and the findings it may see."""
    submission = refused(work, submission_id, SubmissionState.RETURNED, RemarkKind.RETURN, remarks)
    wanted = set(finding_ids)
    shown = [each for each in queries.findings(work, submission) if each.id in wanted]
    if len(shown) < len(wanted):
        raise NotFound("finding")
    for each in shown:
        each.shared = True
    tell_group(
        work,
        submission,
        say("Please look at your collection {number} again", number=submission.number),
        [
            say("The bank has sent collection {number} back to you, and writes:", number=submission.number),
            remarks,
            *(Words.from_json(each.words) for each in shown),
            say("What you handed in is still there: mend what is asked and hand it in again."),
        ],
    )
    return submission


def decline(work: Work, *, submission_id: UUID, reason: str) -> Submission:
    """Refuse a submission for good. What was taken stays in the ledger: it has left the plants."""
    submission = refused(work, submission_id, SubmissionState.DECLINED, RemarkKind.DECLINE, reason)
    tell_group(
        work,
        submission,
        say("Your collection {number} cannot be banked", number=submission.number),
        [
            say("The bank cannot take collection {number}, and writes:", number=submission.number),
            reason,
            say("Please ask the bank what to do with the seed before you give it to anybody or sow it."),
        ],
    )
    return submission


def refused(work: Work, submission_id: UUID, to: SubmissionState, kind: RemarkKind, words: str) -> Submission:
    """Move a submission away from approval, with a remark that says why. Raises Refused without one."""
    if not words.strip():
        raise Refused(NEEDS_A_REASON, field="remarks" if kind is RemarkKind.RETURN else "reason")
    submission = queries.get(work, submission_id, locked=True)
    move(work, submission=submission, to=to, reason=words)
    remark(work, submission=submission, kind=kind, text=words)
    return submission
