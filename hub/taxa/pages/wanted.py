"""The wanted list of a season, open to everybody: species and parts of the region, never a locality."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from flask import request
from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.rights.policy import may
from hub.rights.right import Right
from hub.taxa import queries
from hub.taxa.pages.blueprint import pages
from hub.taxa.pages.months import ripening
from hub.taxa.pages.shelf import Shelf
from hub.taxa.queries.lists import WANTED_ORDERS
from hub.taxa.queries.lists import wanted as wanted_lines
from hub.taxa.rules import CareClass
from hub.taxa.trait_words import DIFFICULTIES, PRIORITIES, offered, offered_list
from hub.taxa.wanted_columns import Column
from hub.web.downloads import csv_download
from hub.web.listing import Asked
from hub.web.render import render
from hub.words import say

SORTS = {
    "priority": say("Most wanted first"),
    "name": say("By name"),
    "ripening": say("By month of ripening"),
    "difficulty": say("Easiest first"),
    "care": say("Rarest first"),
}
HEAD = [*(column.heading for column in Column), "vernacular", "family", "care_class", "groups"]

WORDS = {
    "cares": offered_list(CareClass),
    "difficulties": DIFFICULTIES,
    "levels": offered(DIFFICULTIES),
    "priorities": PRIORITIES,
    "sorts": SORTS,
    "ripening": ripening,
}


@pages.get("/wanted", needs=Right.PUBLIC_READ)
def wanted(work: Work) -> Response:
    may_edit = may(work.scope, Right.WANTED_EDIT)
    shelf = Shelf.of(work, request.args.get("season", ""))
    if shelf is None:
        return render("taxa/no_seasons.html", may_open=may_edit)
    asked = Asked.of(shelf.filters, WANTED_ORDERS)
    conditions = {name: value for name, value in asked.values.items() if name != "season"}
    statement = wanted_lines(work, shelf.season.id, **conditions)
    if asked.wants_csv:
        rows = csv_rows(work, shelf, asked.everything(work, statement))
        return csv_download(f"wanted-{shelf.season.year}", HEAD, rows)
    page = asked.page(work, statement)
    return render(
        "taxa/wanted.html",
        shelf=shelf,
        asked=asked,
        page=page,
        narrowed=any(conditions.values()),
        whole_list=asked.url(**dict.fromkeys(conditions, "")),
        needs=queries.needs_by_line(work, [row[0].id for row in page.items]),
        curates=may_edit and work.scope.own_bank_id == shelf.bank.id,
        **WORDS,
    )


def csv_rows(work: Work, shelf: Shelf, lines: Sequence[Any]) -> Iterator[list[Any]]:
    """A row for each need, in the columns that the import reads, and some more to read."""
    needs = queries.needs_by_line(work, [line[0].id for line in lines])
    for line, taxon, _, held in lines:
        for need in needs[line.id]:
            yield [
                taxon.scientific_name,
                need.populations,
                shelf.ecoregions[need.ecoregion_id].code if need.ecoregion_id else "",
                shelf.districts[need.district_id].code if need.district_id else "",
                line.priority,
                line.note,
                taxon.vernacular,
                taxon.family,
                taxon.care_class.value,
                held,
            ]
