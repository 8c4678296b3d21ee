"""The curator's list of adoptions."""

from __future__ import annotations

from functools import partial
from typing import Any

from flask import request
from werkzeug.wrappers import Response

from hub.adoptions import queries
from hub.adoptions.pages.blueprint import pages
from hub.adoptions.rules import AdoptionState, Stage
from hub.db.work import Work
from hub.rights.right import Right
from hub.taxa import queries as taxa
from hub.web.downloads import csv_download
from hub.web.fields import Choice, Identifier
from hub.web.listing import Asked, Filter
from hub.web.render import render
from hub.words import Words, say

HEAD = (
    say("Species"), say("Group"), say("District"), say("Season"), say("State"), say("Stage"),
    say("Asked at"), say("Last moved at"), say("Wish"), say("Reason"),
)  # fmt: skip
# Where a curator begins: with what waits for an answer, the longest first. Any word in the address asks
# otherwise.
WAITING = {"state": AdoptionState.REQUESTED.value, "sort": "oldest"}
Choices = list[tuple[Any, Words | str]]


@pages.get("/adoptions", needs=Right.ADOPTION_DECIDE)
def requests(work: Work) -> Response:
    choices = choices_for(work)
    asked = Asked(filters(choices), queries.ORDERS, request.args or WAITING, request.path)
    statement = queries.adoptions(work, **asked.values)
    if asked.wants_csv:
        return csv_download("adoptions", HEAD, map(row_of, asked.everything(work, statement)))
    return render(
        "adoptions/requests.html",
        asked=asked,
        page=asked.page(work, statement),
        choices=choices,
        only_waiting=asked.values["state"] is AdoptionState.REQUESTED,
    )


def choices_for(work: Work) -> dict[str, Choices]:
    """What each filter offers."""
    groups, species = queries.groups_and_species(work)
    bank_id = work.scope.own_bank_id
    return {
        "state": [(state, state.words) for state in AdoptionState],
        "stage": [(stage, stage.words) for stage in Stage],
        "season": [(each.id, str(each.year)) for each in taxa.seasons(work, bank_id)] if bank_id else [],
        "taxon": list(species),
        "group": list(groups),
        "district": list(queries.districts_of(work, work.scope.region_id)),
    }


LABELS = {
    "state": say("State"),
    "stage": say("Stage"),
    "season": say("Season"),
    "taxon": say("Species"),
    "group": say("Group"),
    "district": say("District"),
}
ENUMS = {"state": AdoptionState, "stage": Stage}


def word_for(offered: dict[Any, Any], value: Any) -> Any:
    """The words of a chosen value; a dash for one that is no longer offered."""
    return offered.get(value, "–")


def filters(choices: dict[str, Choices]) -> list[Filter]:
    """A filter for each set of choices; its chip shows the chosen one's own words."""
    return [
        Filter(
            name,
            LABELS[name],
            Choice(ENUMS[name]) if name in ENUMS else Identifier(),
            partial(word_for, dict(offered)),
        )
        for name, offered in choices.items()
    ]


def row_of(row: Any) -> tuple[object, ...]:
    adoption, taxon, group, district, year = row
    return (
        taxon.canonical, group, district, year, adoption.state.words, adoption.stage.words,
        adoption.asked_at, adoption.moved_at, adoption.wish, adoption.reason,
    )  # fmt: skip
