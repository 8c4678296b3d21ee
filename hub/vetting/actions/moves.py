"""Every change of a submission's state goes through here, and what is written about it."""

from __future__ import annotations

from collections.abc import Sequence

from hub.accounts.letters import Paragraph, address, post
from hub.accounts.queries import get_person
from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.work import Work
from hub.groups.models import Group
from hub.vetting.actions.ledger import settle_approved
from hub.vetting.models import Remark, Submission
from hub.vetting.rules import SUBMISSION_MOVES, RemarkKind, SubmissionState
from hub.words import Refused, Words, say, say_n

NOT_NOW: dict[SubmissionState, Words] = {
    SubmissionState.DRAFT: say("This is still a draft: its group has not handed it in yet."),
    SubmissionState.HANDED_IN: say("This was handed in already, and waits for the bank."),
    SubmissionState.RETURNED: say("The bank has sent this back; it waits for the group."),
    SubmissionState.APPROVED: say("The bank has approved this already."),
    SubmissionState.DECLINED: say("The bank has declined this."),
    SubmissionState.WITHDRAWN: say("This was withdrawn."),
}
DECISIONS = frozenset({SubmissionState.RETURNED, SubmissionState.APPROVED, SubmissionState.DECLINED})


def check_move(submission: Submission, to: SubmissionState) -> None:
    """Raises Refused for a move that is not in the table, or that an open stop forbids."""
    if to not in SUBMISSION_MOVES[submission.state]:
        raise Refused(NOT_NOW[submission.state])
    if to is SubmissionState.APPROVED and submission.open_stops:
        raise Refused(
            say_n(
                "{n} finding still forbids this. Resolve it, or overrule it with a reason.",
                "{n} findings still forbid this. Resolve them, or overrule them with a reason.",
                n=submission.open_stops,
            )
        )


def move(work: Work, *, submission: Submission, to: SubmissionState, reason: str = "") -> None:
    """Change the state by the table. Raises Refused."""
    check_move(submission, to)
    before, submission.state = submission.state, to
    if to in DECISIONS:
        submission.decided_at, submission.decided_by = work.now, work.scope.person_id
    if to is SubmissionState.APPROVED:
        settle_approved(work, submission)
    record(
        work,
        Event.SUBMISSION_MOVED,
        submission,
        before={"state": str(before)},
        after={"state": str(to), "revision": submission.revision},
        reason=reason,
    )


def remark(work: Work, *, submission: Submission, kind: RemarkKind, text: str) -> Remark:
    """Write something to the other side, signed with the writer's name."""
    said = Remark(
        group_id=submission.group_id,
        bank_id=submission.bank_id,
        submission_id=submission.id,
        kind=kind,
        text=text,
        at=work.now,
        by=work.scope.person_id,
        by_name=get_person(work).name,
        from_bank=work.scope.own_bank_id is not None,
    )
    work.db.add(said)
    return said


def tell_group(work: Work, submission: Submission, subject: Words, body: Sequence[Paragraph]) -> None:
    """A letter to the group's contact, with the way to the submission at its end."""
    group = work.db.get_one(Group, submission.group_id)
    where = say("You find it here: {address}", address=address(work, f"/hand-ins/{submission.id}"))
    post(work, to=group.contact_email, subject=subject, body=[*body, where])
