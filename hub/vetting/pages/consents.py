"""What only a curator can decide, listed: consents, salvage cases, the identity of plants."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.rights.right import Right
from hub.taxa.rules import CareClass
from hub.vetting import queries
from hub.vetting.pages.blueprint import pages
from hub.web.downloads import csv_download
from hub.web.fields import Choice
from hub.web.listing import Asked, Filter
from hub.web.render import render
from hub.words import say

FILTERS = (Filter("care", say("Care class"), Choice(CareClass), lambda care: care.words),)
HEAD = (
    say("Sheet"), say("Species"), say("Care class"), say("Group"), say("Population"), say("Issued on"),
)  # fmt: skip


@pages.get("/bench/consents", needs=Right.RULE_OVERRIDE)
def consents(work: Work) -> Response:
    asked = Asked.of(FILTERS, queries.CONSENT_ORDERS)
    statement = queries.consents_waiting(work, **asked.values)
    if asked.wants_csv:
        return csv_download("consents", HEAD, lines(work, asked.everything(work, statement)))
    return render(
        "vetting/bench_consents.html",
        asked=asked,
        page=asked.page(work, statement),
        cases=queries.salvage_waiting(work),
        plants=queries.plants_to_verify(work),
        cares=[(care, care.words) for care in CareClass if care in queries.CURATOR_DECIDES],
    )


def lines(work: Work, rows: Sequence[Any]) -> Iterator[tuple[object, ...]]:
    for sheet, taxon, group, population in rows:
        issued = sheet.issued_at.astimezone(work.zone).date()
        yield sheet.number, taxon.canonical, taxon.care_class.words, group, population, issued
