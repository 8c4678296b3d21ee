"""Adoptions that do not move: for the coordinator of the region and the curators of the bank."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import timedelta
from typing import Any

from werkzeug.wrappers import Response

from hub.adoptions.rules import Stage
from hub.db.work import Work
from hub.progress import queries
from hub.progress.pages.blueprint import pages
from hub.progress.rules import STALLED_AFTER, WAITS_FOR
from hub.rights.policy import may
from hub.rights.right import Right
from hub.web.downloads import csv_download
from hub.web.fields import Choice, Identifier, Whole
from hub.web.listing import Asked, Filter
from hub.web.render import render
from hub.words import Words, say

WHY = "a coordinator looks after the groups of all banks in the region"
HEAD = (
    say("Species"), say("Group"), say("District"), say("Stage"), say("Since"), say("Days"), say("Waits for"),
    say("Contact"), say("E-mail address"),
)  # fmt: skip
Offered = dict[str, list[tuple[Any, Words | str]]]


@pages.get("/progress/stalled", needs=Right.PROGRESS_STEER, because=WHY)
def stalled(work: Work) -> Response:
    offered: Offered = {
        "stage": [(stage, stage.words) for stage in STALLED_AFTER],
        "district": list(queries.districts_of_region(work)),
    }
    asked = Asked.of(filters(offered), queries.STALLED_ORDERS)
    statement = queries.stalled(work, **asked.values)
    if asked.wants_csv:
        return csv_download("stalled-adoptions", HEAD, csv_rows(work, asked.everything(work, statement)))
    return render(
        "progress/stalled.html",
        asked=asked,
        page=asked.page(work, statement),
        offered=offered,
        waits=WAITS_FOR,
        patience=[(stage.words, after.days) for stage, after in STALLED_AFTER.items()],
        now=work.now,
        day=timedelta(days=1),
        may_open=may(work.scope, Right.ADOPTION_DECIDE),
    )


def filters(offered: Offered) -> list[Filter]:
    """What the list can be narrowed by."""
    names = dict(offered["district"])
    return [
        Filter("stage", say("Stage"), Choice(Stage), lambda stage: stage.words),
        Filter("district", say("District"), Identifier(), lambda key: names.get(key, "–")),
        Filter("year", say("Year"), Whole(1900, 2200)),
    ]


def csv_rows(work: Work, rows: Sequence[Any]) -> Iterator[tuple[object, ...]]:
    for adoption, taxon, group, district, contact, email in rows:
        since = adoption.moved_at.astimezone(work.zone).date()
        days = (work.now - adoption.moved_at).days
        waits = WAITS_FOR[adoption.stage]
        yield taxon.canonical, group, district, adoption.stage.words, since, days, waits, contact, email
