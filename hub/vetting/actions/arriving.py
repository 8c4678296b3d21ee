"""Note that the seed of a submission has come in, in what condition, and take such a note back."""

from __future__ import annotations

from datetime import date, datetime, time
from typing import Any
from uuid import UUID

from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.work import Work
from hub.vetting import queries
from hub.vetting.actions.moves import NOT_NOW
from hub.vetting.models import Submission
from hub.vetting.rules import CAN_ARRIVE, rank_in_queue
from hub.words import Refused, say


def seed_arrived(work: Work, *, submission_id: UUID, day: date, at: time, note: str = "") -> Submission:
    """Note when the bank had the seed in its hands, by its own clock, and in what condition.

    The same again changes nothing. Raises Refused for a moment still to come or before the day of collecting,
    and where another arrival is noted already.
    """
    submission = received(work, submission_id)
    arrived_at, note = datetime.combine(day, at, work.zone), note.strip()
    if submission.arrived_at is not None:
        if (submission.arrived_at, submission.arrival_note) == (arrived_at, note):
            return submission
        raise Refused(say("Its arrival is noted already. Take that back first, then note it anew."))
    check_moment(work, submission, arrived_at)
    before = told_of(submission)
    submission.arrived_at, submission.arrived_by = arrived_at, work.scope.person_id
    submission.arrival_note = note
    noted(work, submission, before, note)
    return submission


def undo_arrival(work: Work, *, submission_id: UUID) -> Submission:
    """Take the note of an arrival back: the wrong bag, the wrong line. Twice changes nothing more."""
    submission = received(work, submission_id)
    if submission.arrived_at is not None:
        before = told_of(submission)
        submission.arrived_at = submission.arrived_by = None
        submission.arrival_note = ""
        noted(work, submission, before)
    return submission


def received(work: Work, submission_id: UUID) -> Submission:
    """A submission whose seed can come in, locked. Raises Refused for a draft, and for what is over."""
    submission = queries.get(work, submission_id, locked=True)
    if submission.state not in CAN_ARRIVE:
        raise Refused(NOT_NOW[submission.state])
    return submission


def check_moment(work: Work, submission: Submission, at: datetime) -> None:
    newest = queries.newest_revision(work, submission)
    if at > work.now:
        raise Refused(say("This moment is still to come."), field="day")
    if newest and at.date() < queries.collection_of(newest).collected_on:
        raise Refused(say("The seed was collected after this day."), field="day")


def noted(work: Work, submission: Submission, before: dict[str, Any], note: str = "") -> None:
    """Put the submission in its new place in the queue, and record what was noted."""
    place_in_queue(submission)
    record(work, Event.ARRIVAL_NOTED, submission, before=before, after=told_of(submission), reason=note)


def place_in_queue(submission: Submission) -> None:
    """Seed that is here, by the bank's note or the group's word, gives way to seed still on its way."""
    here = submission.arrived_at is not None or submission.said_arrived_on is not None
    submission.urgency_rank = rank_in_queue(submission.urgency, arrived=here)


def told_of(submission: Submission) -> dict[str, Any]:
    at = submission.arrived_at
    return {"arrived_at": at.isoformat() if at else None}
