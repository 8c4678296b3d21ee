"""What the bank may ask about a collection, told to its group before it is handed in: time to mend it."""

from __future__ import annotations

from dataclasses import replace

from hub.db.work import Work
from hub.vetting import checks
from hub.vetting.collection import Collection
from hub.vetting.evidence import Account, Evidence, Papers
from hub.vetting.gathering import gather
from hub.vetting.models import Revision, Submission
from hub.vetting.rules import Severity
from hub.words import Words

# The list of what is still missing says these already, thing by thing.
SAID_AS_MISSING = frozenset({"minimum_data", "photographs_asked", "identity_named", "cut_test_made"})


def foreseen(work: Work, submission: Submission, collection: Collection) -> list[Words]:
    """What the checks would ask, gravest first. Nothing is stored: the revision they look at is never added.

    A finding’s words name nothing of another group; its figures and its source stay with the bank.
    """
    revision = Revision(
        submission_id=submission.id,
        number=submission.revision + 1,
        data=collection.as_document(),
        handed_in_at=work.now,
    )
    found = checks.findings(as_if_entered(gather(work, submission, revision)))
    asked = (each for each in found if each.severity is not Severity.NOTE)
    return list(dict.fromkeys(each.words for each in asked if each.check not in SAID_AS_MISSING))


def as_if_entered(evidence: Evidence) -> Evidence:
    """The same with this collection’s seeds in the ledger, where handing in would put them."""
    taken = evidence.collection.seeds_taken
    more = max(0, taken - evidence.entered_seeds)
    return replace(
        evidence,
        entered_seeds=evidence.entered_seeds + more,
        account=with_more(evidence.account, more),
        papers=under_permits(evidence.papers, more),
    )


def with_more(account: Account | None, seeds: int) -> Account | None:
    return account and replace(account, taken_seeds=account.taken_seeds + seeds)


def under_permits(papers: Papers, seeds: int) -> Papers:
    permits = tuple(replace(each, used_seeds=each.used_seeds + seeds) for each in papers.permits)
    return replace(papers, permits=permits)
