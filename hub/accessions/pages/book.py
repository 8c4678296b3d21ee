"""The accession book: every accession of the bank, found by number, species, group, state or year."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from werkzeug.wrappers import Response

from hub.accessions import queries
from hub.accessions.numbers import without_check
from hub.accessions.pages.blueprint import pages
from hub.accessions.rules import AccessionState
from hub.db.work import Work
from hub.rights.right import Right
from hub.web.downloads import csv_download
from hub.web.fields import Choice, Identifier, Whole
from hub.web.listing import Asked, Filter
from hub.web.paging import Page
from hub.web.render import notice, render
from hub.words import Words, say

FIELDS: dict[str, tuple[Words, Any]] = {
    "taxon": (say("Species"), Identifier()),
    "group": (say("Group"), Identifier()),
    "state": (say("State"), Choice(AccessionState)),
    "year": (say("Year"), Whole(1900, 2200)),
}
HEAD = (
    say("Accession"), say("Species"), say("Group"), say("State"), say("Collected on"),
    say("Accessioned on"), say("Mothers (plants)"), say("Lots"), say("Seeds (estimate)"),
)  # fmt: skip
NEAREST = say("The last sign of {number} does not fit it. This is what the rest of the number finds.")
Choices = dict[str, list[tuple[Any, Words | str]]]


def choices_for(work: Work) -> Choices:
    """What each filter offers."""
    return queries.choices(work) | {"state": [(state, state.words) for state in AccessionState]}


def filters(choices: Choices) -> list[Filter]:
    """A filter for each set of choices; its chip shows the chosen one's own words."""
    return [
        Filter(name, label, field, lambda value, offered=dict(choices[name]): offered.get(value, "–"))  # type: ignore[misc]
        for name, (label, field) in FIELDS.items()
        if name in choices
    ]


@pages.get("/accession-book", needs=Right.LOT_READ)
def book(work: Work) -> Response:
    choices = choices_for(work)
    asked = Asked.of(filters(choices), queries.BOOK_ORDERS)
    if asked.wants_csv:
        rows = asked.everything(work, queries.book(work, **asked.values))
        return csv_download("accession-book", HEAD, csv_rows(work, rows))
    page = found(work, asked)
    return render(
        "accessions/book.html",
        asked=asked,
        page=page,
        choices=choices,
        holdings=queries.holdings(work, [row[0].id for row in page.items]),
    )


def found(work: Work, asked: Asked) -> Page:
    """The asked page. A number with a wrong check character is looked for once more, without it."""
    page = asked.page(work, queries.book(work, **asked.values))
    shorter = without_check(asked.search) if not page.items else None
    if shorter is None:
        return page
    page = asked.page(work, queries.book(work, **{**asked.values, "search": shorter}))
    if page.items:
        notice(Words(NEAREST.text, {"number": asked.search}), "note")
    return page


def csv_rows(work: Work, rows: Sequence[Any]) -> Iterator[tuple[object, ...]]:
    held = queries.holdings(work, [row[0].id for row in rows])
    for accession, taxon, group in rows:
        lots, seeds = held.get(accession.id, (0, 0))
        yield (
            accession.number, taxon.canonical, group, accession.state.words, accession.collected_on,
            accession.accessioned_at.astimezone(work.zone).date(), accession.mothers, lots, seeds,
        )  # fmt: skip
