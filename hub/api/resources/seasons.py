"""Seasons of the banks: public to read, opened and moved by curators."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from marshmallow import fields
from sqlalchemy import select

from hub.api.blueprint import api
from hub.api.listing import Asked, listing
from hub.api.rows import where_given
from hub.api.shown import Shown
from hub.db.work import Work
from hub.rights.right import Right
from hub.taxa import actions, queries
from hub.taxa.models import Season
from hub.taxa.schemas import DaysSchema, SeasonSchema
from hub.web.fields import Identifier, Whole
from hub.web.paging import Page
from hub.words import say

SEASONS = listing(
    "Seasons",
    {"newest": (Season.year.desc(), Season.id), "oldest": (Season.year, Season.id)},
    search=False,
    bank_id=Identifier(),
    year=Whole(1990, 2190),
)
EXAMPLE = {"year": 2032, "opens_on": "2032-03-01", "closes_on": "2032-11-30", "lapses_on": "2032-09-01"}


class SeasonShown(Shown):
    """One collecting year of one bank."""

    id = fields.UUID()
    bank_id = fields.UUID()
    year = fields.Integer()
    opens_on = fields.Date()
    closes_on = fields.Date()
    lapses_on = fields.Date()


class SeasonDaysSchema(DaysSchema):
    """Days to put in the place of others."""


@api.shows(
    "/seasons",
    needs=Right.PUBLIC_READ,
    summary=say("Seasons of all banks"),
    asks=SEASONS,
    gives=SeasonShown(),
    paged=True,
)
def seasons(work: Work, asked: Asked) -> Page:
    wanted = {Season.bank_id: asked.filters["bank_id"], Season.year: asked.filters["year"]}
    return asked.page(work, select(Season).where(*where_given(wanted)))


@api.shows(
    "/seasons/<uuid:season_id>", needs=Right.PUBLIC_READ, summary=say("One season"), gives=SeasonShown()
)
def season(work: Work, season_id: UUID) -> Season:
    return queries.get_season(work, season_id)


@api.makes(
    "/seasons",
    needs=Right.WANTED_EDIT,
    summary=say("Open a season of the own bank"),
    takes=SeasonSchema(),
    gives=SeasonShown(),
    leads_to="season",
    example=EXAMPLE,
)
def open_season(work: Work, sent: dict[str, Any]) -> Season:
    return actions.open_season(work, **sent)


def own_season(work: Work, season_id: UUID) -> Season:
    return queries.get_own_season(work, season_id)


@api.changes(
    "/seasons/<uuid:season_id>",
    needs=Right.WANTED_EDIT,
    summary=say("Move the days of a season"),
    takes=SeasonDaysSchema(partial=True),
    gives=SeasonShown(),
    current=own_season,
)
def change_season(work: Work, season_id: UUID, sent: dict[str, Any]) -> Season:
    held = queries.get_own_season(work, season_id)
    days = {name: getattr(held, name) for name in ("opens_on", "closes_on", "lapses_on")}
    return actions.change_season(work, season_id=season_id, **days | sent)
