"""What a submission enters into the take ledger: seed said to be taken stays taken until a curator agrees.

A later revision with a smaller figure frees nothing: the plants have lost what they have lost, and a group
could otherwise make room for itself by writing less. What a curator approves is settled as it stands.
"""

from __future__ import annotations

from hub.collecting import actions as ledger
from hub.db.work import Work
from hub.protocols.models import IssuedSheet
from hub.protocols.queries import get_sheet
from hub.vetting import queries
from hub.vetting.collection import Collection, most_by_year
from hub.vetting.models import Submission


def enter_taken(work: Work, submission: Submission, issued: IssuedSheet, data: Collection) -> None:
    """Enter what a new revision says beyond the earlier ones, in the year of its day."""
    earlier = queries.handed_in_so_far(work, submission)
    held, now = most_by_year(earlier), most_by_year([*earlier, data])
    for year, seeds in now.items():
        more = seeds - held.get(year, 0)
        ledger.take(work, sheet=issued, year=year, seeds=more, note=submission.number)


def settle_approved(work: Work, submission: Submission) -> None:
    """Give back what earlier revisions said too much, now that a curator has approved the last one."""
    said = queries.handed_in_so_far(work, submission)
    issued = get_sheet(work, submission.sheet_id)
    for year, seeds in most_by_year(said).items():
        approved = said[-1].seeds_taken if said[-1].collected_on.year == year else 0
        ledger.give_back(work, sheet=issued, year=year, seeds=seeds - approved, note=submission.number)
