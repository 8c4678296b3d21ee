"""A group's own accessions: thanks, and what became of its seed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from werkzeug.wrappers import Response

from hub.accessions import queries
from hub.accessions.pages.blueprint import pages
from hub.accessions.pages.book import choices_for, filters
from hub.accessions.rules import BECAME
from hub.db.work import Work
from hub.rights.right import Right
from hub.web.downloads import csv_download
from hub.web.listing import Asked
from hub.web.render import render
from hub.words import say

HEAD = (
    say("Accession"), say("Species"), say("Population"), say("Collected on"), say("Accessioned on"),
    say("Mothers (plants)"), say("State"), say("What became of it"),
)  # fmt: skip


@pages.get("/our-accessions", needs=Right.SUBMISSION_WRITE)
def ours(work: Work) -> Response:
    choices = choices_for(work)
    del choices["group"]  # there is one
    asked = Asked.of(filters(choices), queries.OWN_ORDERS)
    statement = queries.ours(work, **asked.values)
    if asked.wants_csv:
        return csv_download("our-accessions", HEAD, csv_rows(work, asked.everything(work, statement)))
    return render(
        "accessions/ours.html",
        asked=asked,
        page=asked.page(work, statement),
        choices=choices,
        became=BECAME,
    )


def csv_rows(work: Work, rows: Sequence[Any]) -> Iterator[tuple[object, ...]]:
    for accession, taxon, population in rows:
        yield (
            accession.number, taxon.canonical, population, accession.collected_on,
            accession.accessioned_at.astimezone(work.zone).date(), accession.mothers,
            accession.state.words, BECAME[accession.state],
        )  # fmt: skip
