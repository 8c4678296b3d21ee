"""The group's list of its hand-ins, and one of them: its state, its revisions, what the bank answered."""

from __future__ import annotations

from itertools import pairwise
from typing import Any
from uuid import UUID

from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.protocols.queries import get_sheet
from hub.rights.policy import may
from hub.rights.right import Right
from hub.sites.queries import get_population
from hub.taxa.queries import get as get_taxon
from hub.vetting import queries
from hub.vetting.differences import differences
from hub.vetting.models import Revision, Submission
from hub.vetting.pages.blueprint import pages
from hub.vetting.pages.kinds import KINDS, STATES
from hub.vetting.pages.looks import tally_heads, tally_rows, told_facts
from hub.vetting.rules import WRITABLE, SubmissionState
from hub.web.downloads import csv_download
from hub.web.fields import Choice, Identifier
from hub.web.listing import Asked, Filter
from hub.web.render import render
from hub.words import Words, say

FILTERS = (
    Filter("state", say("State"), Choice(SubmissionState), STATES.__getitem__),
    Filter("taxon", say("Species"), Identifier(), lambda key: say("one only")),
)
HEAD = (
    say("Number"),
    say("Species"),
    say("Population"),
    say("State"),
    say("Begun on"),
    say("Handed in on"),
    say("Revision"),
)


@pages.get("/hand-ins", needs=Right.SUBMISSION_WRITE)
def hand_ins(work: Work) -> Response:
    asked = Asked.of(FILTERS, queries.ORDERS)
    statement = queries.ours(work, **asked.values)
    if asked.wants_csv:
        rows = asked.everything(work, statement)
        return csv_download("hand-ins", HEAD, (row_of(work, *row) for row in rows))
    return render(
        "vetting/hand_ins.html",
        asked=asked,
        page=asked.page(work, statement),
        states=list(STATES.items()),
        taxa=[(taxon.id, taxon.canonical) for taxon in queries.taxa_handed_in(work)],
    )


def row_of(work: Work, submission: Submission, taxon: Any, population: str) -> tuple[object, ...]:
    handed_in = submission.handed_in_at
    return (
        submission.number,
        taxon.canonical,
        population,
        STATES[submission.state],
        submission.begun_at.astimezone(work.zone).date(),
        handed_in.astimezone(work.zone).date() if handed_in else None,
        submission.revision or None,
    )


@pages.get("/hand-ins/<uuid:submission_id>", needs=Right.SUBMISSION_WRITE)
def submission(work: Work, submission_id: UUID) -> Response:
    found = queries.get(work, submission_id)
    revisions = queries.revisions(work, submission_id)
    return render(
        "vetting/submission.html",
        submission=found,
        issued=get_sheet(work, found.sheet_id),
        taxon=get_taxon(work, found.taxon_id),
        population=get_population(work, found.population_id),
        revisions=[shown(work, revision) for revision in reversed(revisions)],
        changes=changes(revisions),
        heads=tally_heads(),
        remarks=queries.remarks(work, submission_id),
        findings=[Words.from_json(each.words) for each in queries.shared_findings(work, found)],
        photographs=queries.photographs(work, submission_id),
        kinds=KINDS,
        writable=found.state in WRITABLE,
        may_hand_in=may(work.scope, Right.SUBMISSION_HAND_IN),
    )


def shown(work: Work, revision: Revision) -> dict[str, Any]:
    collection = queries.collection_of(revision)
    return {
        "number": revision.number,
        "at": revision.handed_in_at,
        "facts": told_facts(work, collection),
        "tallies": tally_rows(collection),
    }


def changes(revisions: list[Revision]) -> dict[int, Any]:
    """What each revision changed in the one before it, by its number."""
    return {
        after.number: differences(queries.collection_of(before), queries.collection_of(after))
        for before, after in pairwise(revisions)
    }
