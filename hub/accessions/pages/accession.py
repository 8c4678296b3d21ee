"""One accession: for its bank with lots, ledger and history; for its group what became of the seed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any
from uuid import UUID

from flask import request
from werkzeug.wrappers import Response

from hub.accessions import queries
from hub.accessions.letters import thanks_for
from hub.accessions.models import Accession
from hub.accessions.pages.blueprint import pages
from hub.accessions.pages.moving import VERBS
from hub.accessions.rules import BECAME, CLOSED, may_become
from hub.accessions.story import story_of
from hub.db.work import Work
from hub.groups.queries import get_group
from hub.protocols.queries import get_sheet
from hub.rights.policy import may
from hub.rights.right import Right
from hub.taxa.queries import get as get_taxon
from hub.vetting import queries as submissions
from hub.web.downloads import csv_download, pdf_download
from hub.web.limits import limited, minutes, person
from hub.web.pdf import pdf_page
from hub.web.render import render
from hub.words import say

HEAD = (
    say("Accession"), say("Lot"), say("At"), say("Kind"), say("Seeds (in above 0, out below)"),
    say("Estimated"), say("Why"), say("By"),
)  # fmt: skip


@pages.get("/accessions/<uuid:accession_id>", needs=Right.ACCESSION_READ)
def accession(work: Work, accession_id: UUID) -> Response:
    found = queries.get(work, accession_id)
    if not may(work.scope, Right.LOT_READ):
        return for_group(work, found)
    entries = queries.entries_of_accession(work, accession_id)
    if request.args.get("as") == "csv":
        return csv_download(f"ledger-{found.number}", HEAD, ledger_rows(work, found, entries))
    return for_bank(work, found, entries)


def for_bank(work: Work, found: Accession, entries: Sequence[Any]) -> Response:
    lots = queries.lots_of(work, found.id)
    story = queries.story_entries(work, found, lots)
    names = queries.names_of(work, [*(row[0].by for row in entries), *(each.person_id for each in story)])
    submission = submissions.get(work, found.submission_id)
    return render(
        "accessions/accession.html",
        accession=found,
        submission=submission,
        sheet=get_sheet(work, submission.sheet_id),
        lots=lots,
        entries=entries,
        names=names,
        story=story_of(story, names),
        verbs=[verb for verb, state in VERBS.items() if may_become(found.state, state)],
        closed=found.state in CLOSED,
        may_work=may(work.scope, Right.LOT_WORK),
        **told(work, found),
    )


def for_group(work: Work, found: Accession) -> Response:
    """What the group may know: its own work, the number, the state; nothing of lots and freezers."""
    return render(
        "accessions/for_group.html",
        accession=found,
        became=BECAME[found.state],
        story=story_of(queries.story_entries(work, found), {}),
        **told(work, found),
    )


def told(work: Work, found: Accession) -> dict[str, Any]:
    """What both pages show."""
    return {
        "taxon": get_taxon(work, found.taxon_id),
        "group": get_group(work, found.group_id),
        "population": queries.population_code(work, found),
    }


def ledger_rows(work: Work, found: Accession, entries: Sequence[Any]) -> Iterator[tuple[object, ...]]:
    names = queries.names_of(work, [row[0].by for row in entries])
    for entry, label in entries:
        yield (
            found.number, label, entry.at, entry.kind.words, entry.seeds, entry.estimated, entry.why,
            names.get(entry.by),
        )  # fmt: skip


@pages.get("/accessions/<uuid:accession_id>/thanks.pdf", needs=Right.ACCESSION_READ)
@limited("papers", times=120, within=minutes(10), by=person, reads=True)
def thanks_pdf(work: Work, accession_id: UUID) -> Response:
    letter = thanks_for(work, queries.get(work, accession_id))
    body = pdf_page(work.settings, "accessions/thanks_pdf.html", letter=letter)
    return pdf_download(f"Thanks for {letter.accession.number}", body)
