"""The sheets of a group, or of all the groups of a bank; and the way to one by its printed number."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from flask import url_for
from werkzeug.exceptions import NotFound as PageNotFound
from werkzeug.utils import redirect
from werkzeug.wrappers import Response

from hub.db.numbering import is_whole
from hub.db.work import Work
from hub.protocols import listed, queries
from hub.protocols.imprint import STATES, standing
from hub.protocols.models import SheetState
from hub.protocols.pages.blueprint import pages
from hub.protocols.sheet import Status
from hub.protocols.sheet_words import STATUS
from hub.rights.policy import may
from hub.rights.right import Right
from hub.web.downloads import csv_download
from hub.web.fields import Choice, Identifier, Whole
from hub.web.listing import Asked, Filter
from hub.web.render import render
from hub.words import Words, say

FILTERS = (
    Filter("state", say("Holds"), Choice(SheetState), lambda state: STATES[state]),
    Filter("says", say("Says"), Choice(Status), lambda status: STATUS[status]),
    Filter("taxon", say("Species"), Identifier(), lambda key: say("one only")),
    Filter("season", say("Season"), Whole(1900, 2999)),
)
HEAD = (
    say("Number"), say("Species"), say("Group"), say("Population"), say("Season"), say("Says"),
    say("Holds"), say("Issued at (UTC)"),
)  # fmt: skip
MISTYPED = say(
    "“{number}” is not a number of a sheet: its last letter does not fit the rest. Please compare it with "
    "the printed one, letter by letter; 0 and O, 1 and I are easily mistaken."
)
UNKNOWN = say("There is no sheet {number} here, or it belongs to another group.")


@pages.get("/sheets", needs=Right.SHEET_READ)
def sheets(work: Work) -> Response:
    asked = Asked.of(FILTERS, listed.ORDERS)
    statement = listed.sheets(work, **asked.values)
    if asked.wants_csv:
        return csv_download("sheets", HEAD, rows(asked.everything(work, statement)))
    return render(
        "protocols/sheets.html",
        asked=asked,
        page=asked.page(work, statement),
        waiting=listed.without_sheet(work),
        species=listed.species_with_sheets(work),
        years=[(year, str(year)) for year in listed.years_with_sheets(work)],
        standing=lambda issued, closes_on: standing(issued.state, issued.status, closes_on, work.today),
        holding=[(each.value, words) for each, words in STATES.items()],
        statuses=[(each.value, words) for each, words in STATUS.items()],
        shows_groups=work.scope.own_group_id is None,
        may_issue=may(work.scope, Right.SHEET_ISSUE),
    )


def rows(found: Sequence[Any]) -> Iterator[tuple[object, ...]]:
    for issued, taxon, group, population, year, _ in found:
        says = STATUS[Status(issued.status)]
        yield (
            issued.number, taxon.canonical, group, population, year, says, STATES[issued.state],
            issued.issued_at,
        )  # fmt: skip


@pages.get("/sheets/by-number/<string:number>", needs=Right.SHEET_READ)
def by_number(work: Work, number: str) -> Response:
    """Where the QR code of a printed sheet leads. A mistyped number is told from an unknown one."""
    if not is_whole(number) or not queries.as_printed(number):
        raise missing(Words(MISTYPED.text, {"number": as_typed(number)}))
    issued = queries.by_number(work, number)
    if issued is None:
        raise missing(Words(UNKNOWN.text, {"number": as_typed(number)}))
    return redirect(url_for(".sheet", sheet_id=issued.id))


def as_typed(number: str) -> str:
    """The beginning of what was typed, fit to be shown again."""
    return "".join(sign for sign in number if sign.isprintable())[:40]


def missing(words: Words) -> PageNotFound:
    return PageNotFound(words)  # type: ignore[arg-type]
