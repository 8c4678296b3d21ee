"""Begin a submission, keep its draft, or withdraw it before it is handed in."""

from __future__ import annotations

from collections.abc import Iterable
from uuid import UUID, uuid4

from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.numbering import next_in, with_check
from hub.db.work import Work
from hub.groups import queries as groups
from hub.groups.models import Group
from hub.protocols.models import IssuedSheet
from hub.protocols.queries import get_sheet
from hub.taxa.queries import get_season
from hub.vetting import queries
from hub.vetting.actions.moves import NOT_NOW, move
from hub.vetting.draft import kept
from hub.vetting.models import Submission
from hub.vetting.rules import WRITABLE, SubmissionState
from hub.words import Refused, say

CLASH = say(
    "Somebody else wrote on this meanwhile. What you typed is kept below: open the hand-in in another window "
    "to compare, then send this again to put yours in the place of theirs."
)


def begin(work: Work, *, sheet_id: UUID, sent_key: str) -> Submission:
    """Start a draft under a sheet. The same ``sent_key`` gives the same submission, however often sent."""
    issued = get_sheet(work, sheet_id)
    group = groups.get_group(work, issued.group_id, locked=True)
    found = queries.sent_with(work, group_id=group.id, sent_key=sent_key)
    if found is not None:
        return found
    submission = Submission(
        id=uuid4(),
        group_id=issued.group_id,
        bank_id=issued.bank_id,
        number=next_number(work, group, issued),
        sheet_id=issued.id,
        adoption_id=issued.adoption_id,
        population_id=issued.population_id,
        taxon_id=issued.taxon_id,
        sent_key=sent_key,
        begun_at=work.now,
    )
    work.db.add(submission)
    record(work, Event.SUBMISSION_BEGUN, submission, after={"number": submission.number})
    return submission


def next_number(work: Work, group: Group, issued: IssuedSheet) -> str:
    """A number such as ``FLG-2031-0007-R``. The serial runs on from year to year and is never given again."""
    year = get_season(work, issued.season_id).year
    return with_check(f"{group.code}-{year}-{next_in(work, f'submission {group.code}'):04d}")


def save_draft(
    work: Work, *, submission_id: UUID, draft: Iterable[tuple[str, str]], version: int | None = None
) -> Submission:
    """Keep what was typed, box by box, right or wrong.

    With the ``version`` that the writer saw, raises Refused when somebody else has written since.
    """
    submission = writable(work, submission_id)
    if version is not None and version != submission.version:
        raise Refused(CLASH)
    submission.draft = kept(draft)
    work.db.flush()
    return submission


def withdraw(work: Work, *, submission_id: UUID) -> Submission:
    """Give a draft up. Nothing of it was handed in, so nothing leaves the ledger."""
    submission = queries.get(work, submission_id, locked=True)
    move(work, submission=submission, to=SubmissionState.WITHDRAWN)
    return submission


def writable(work: Work, submission_id: UUID) -> Submission:
    """A submission that its group may write on now, locked. Raises Refused for any other."""
    submission = queries.get(work, submission_id, locked=True)
    if submission.state not in WRITABLE:
        raise Refused(NOT_NOW[submission.state])
    return submission
