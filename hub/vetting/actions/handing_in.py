"""Hand a collection in: freeze it, enter the ledger, let the checks look, tell everybody."""

from __future__ import annotations

from uuid import UUID

from hub.db.work import Work
from hub.groups import queries as groups
from hub.protocols.models import IssuedSheet
from hub.protocols.queries import get_sheet, sheet_of
from hub.vetting import queries
from hub.vetting.actions.arriving import place_in_queue
from hub.vetting.actions.ledger import enter_taken
from hub.vetting.actions.moves import check_move, move, tell_group
from hub.vetting.collection import Collection
from hub.vetting.examine import examine
from hub.vetting.models import Revision, Submission
from hub.vetting.rules import SubmissionState
from hub.vetting.urgency import deadline_of, urgency_of
from hub.words import NotFound, Refused, say

CHANGED = say("This was changed after you looked at it. Please look at it once more, then hand it in.")


def hand_in(work: Work, *, submission_id: UUID, data: Collection, version: int | None = None) -> Submission:
    """Make the next revision of a submission. The same data sent again changes nothing.

    A sheet that was superseded or is not ready stops nobody here: what was collected is written down, and the
    findings say so. With the ``version`` that was reviewed, raises Refused when it has changed since.
    """
    submission = queries.get(work, submission_id, locked=True)
    newest = queries.newest_revision(work, submission)
    if sent_again(submission, newest, data):
        return submission
    check_move(submission, SubmissionState.HANDED_IN)
    if version is not None and version != submission.version:
        raise Refused(CHANGED)
    check_collection(work, data)
    issued = get_sheet(work, submission.sheet_id)
    enter_taken(work, submission, issued, data)
    freeze(work, submission, issued, data)
    move(work, submission=submission, to=SubmissionState.HANDED_IN)
    examine(work, submission)
    tell_received(work, submission)
    return submission


def sent_again(submission: Submission, newest: Revision | None, data: Collection) -> bool:
    """Whether this very collection was handed in a moment ago: a button pressed twice, a line that broke."""
    waiting = submission.state is SubmissionState.HANDED_IN
    return waiting and newest is not None and newest.data == data.as_document()


def check_collection(work: Work, data: Collection) -> None:
    """What only the hub's own records can say of a collection. Raises Refused beside the box."""
    if data.collected_on > work.today:
        raise Refused(say("This day is still to come."), field="collected_on")
    if data.crew_id is not None:
        try:
            groups.get_crew(work, UUID(data.crew_id))
        except (NotFound, ValueError):
            raise Refused(say("Please choose one of your own crews."), field="crew_id") from None


def freeze(work: Work, submission: Submission, issued: IssuedSheet, data: Collection) -> None:
    """Add the revision, and reckon from its sheet how urgent the seed is."""
    sheet = sheet_of(issued)
    submission.revision += 1
    submission.draft = {}
    submission.handed_in_at = work.now
    submission.urgency = urgency_of(sheet, data)
    submission.said_arrived_on = data.reached_bank_on
    place_in_queue(submission)
    submission.deadline_at = deadline_of(sheet, data, work.zone)
    work.db.add(
        Revision(
            group_id=submission.group_id,
            bank_id=submission.bank_id,
            submission_id=submission.id,
            number=submission.revision,
            data=data.as_document(),
            handed_in_at=work.now,
            handed_in_by=work.scope.person_id,
        )
    )


def tell_received(work: Work, submission: Submission) -> None:
    """A letter to the group: what it wrote is here, under this number, and what comes next."""
    tell_group(
        work,
        submission,
        say("Your collection {number} was handed in", number=submission.number),
        [
            say(
                "What you wrote about collection {number} is at the bank, and kept as you handed it in.",
                number=submission.number,
            ),
            say(
                "Write this number on every bag. The page below says by when the seed should be at the bank."
            ),
            say("The bank looks at what you wrote, and writes to you when it has decided."),
        ],
    )
