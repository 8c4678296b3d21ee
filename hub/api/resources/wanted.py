"""The wanted list of a season: public to read, kept by the bank's curators."""

from __future__ import annotations

from collections.abc import Sequence
from types import SimpleNamespace
from typing import Any
from uuid import UUID

from marshmallow import fields
from sqlalchemy import Select

from hub.api.blueprint import api
from hub.api.listing import Asked, listing
from hub.api.rows import only
from hub.api.shown import Count, Shown
from hub.db.work import Work
from hub.rights.right import Right
from hub.taxa import actions, queries
from hub.taxa.models import Difficulty, Wanted
from hub.taxa.queries import lists
from hub.taxa.rules import CareClass
from hub.taxa.schemas import WantSchema
from hub.web.fields import Choice, Identifier, Yes
from hub.web.paging import Page
from hub.words import say

WANTED = listing(
    "Wanted",
    lists.WANTED_ORDERS,
    care=Choice(CareClass),
    difficulty=Choice(Difficulty),
    district=Identifier(),
    ecoregion=Identifier(),
    school=Yes(),
    needed=Yes(),
)
LINE = "/seasons/<uuid:season_id>/wanted/<uuid:taxon_id>"
EXAMPLE = {"priority": 1, "note": "", "needs": [{"populations": 2}]}


class NeedShown(Shown):
    """So many populations from one place, or from anywhere."""

    populations = Count("populations")
    ecoregion_id = fields.UUID(allow_none=True)
    district_id = fields.UUID(allow_none=True)


class WantedShown(Shown):
    """One species on one season's list."""

    season_id = fields.UUID(attribute="Wanted.season_id")
    taxon_id = fields.UUID(attribute="Wanted.taxon_id")
    scientific_name = fields.String(attribute="Taxon.scientific_name")
    vernacular = fields.String(attribute="Taxon.vernacular")
    care_class = Choice(CareClass, attribute="Taxon.care_class")
    difficulty = Choice(Difficulty, attribute="Taxon.difficulty")
    suits_school = fields.Boolean(attribute="Taxon.suits_school")
    priority = fields.Integer(attribute="Wanted.priority", metadata={"minimum": 1, "maximum": 3})
    note = fields.String(attribute="Wanted.note")
    populations = Count("populations")
    groups = Count("groups", attribute="held")
    needs = fields.List(fields.Nested(NeedShown))


class WantNewSchema(WantSchema):
    """A species to put on the list."""

    taxon_id = Identifier(required=True)


@api.shows(
    "/seasons/<uuid:season_id>/wanted",
    needs=Right.PUBLIC_READ,
    summary=say("The wanted list of a season"),
    asks=WANTED,
    gives=WantedShown(),
    paged=True,
)
def wanted(work: Work, season_id: UUID, asked: Asked) -> Page:
    season = queries.get_season(work, season_id)
    page = asked.page(work, lists.wanted(work, season.id, **asked.filters))
    return Page(with_needs(work, page.items), page.next, page.previous)


def with_needs(work: Work, rows: Sequence[Any]) -> list[SimpleNamespace]:
    """Lines with what is needed of each, for one more question."""
    needs = queries.needs_by_line(work, [row.Wanted.id for row in rows])
    return [
        SimpleNamespace(
            Wanted=row.Wanted,
            Taxon=row.Taxon,
            populations=row.populations,
            held=row.held,
            needs=needs[row.Wanted.id],
        )
        for row in rows
    ]


@api.shows(LINE, needs=Right.PUBLIC_READ, summary=say("One species on a season’s list"), gives=WantedShown())
def wanted_line(work: Work, season_id: UUID, taxon_id: UUID) -> SimpleNamespace:
    found: Select[Any] = lists.wanted(work, season_id).where(Wanted.taxon_id == taxon_id)
    return with_needs(work, [only(work, found)])[0]


@api.makes(
    "/seasons/<uuid:season_id>/wanted",
    needs=Right.WANTED_EDIT,
    summary=say("Put a species on the list, or set its line anew"),
    takes=WantNewSchema(),
    gives=WantedShown(),
    example=EXAMPLE | {"taxon_id": "6ab1b8a0-6f3b-4b52-a7c4-6d0f6bb2b1ab"},
)
def want(work: Work, season_id: UUID, sent: dict[str, Any]) -> SimpleNamespace:
    return put_line(work, season_id, sent.pop("taxon_id"), sent)


def put_line(work: Work, season_id: UUID, taxon_id: UUID, sent: dict[str, Any]) -> SimpleNamespace:
    needs = [actions.NeedGiven(**need) for need in sent.pop("needs")]
    actions.want(work, season_id=season_id, taxon_id=taxon_id, needs=needs, **sent)
    work.db.flush()
    return wanted_line(work, season_id, taxon_id)


@api.changes(
    LINE,
    method="PUT",
    needs=Right.WANTED_EDIT,
    summary=say("Change a line of the list"),
    takes=WantSchema(),
    gives=WantedShown(),
    current=wanted_line,
    example=EXAMPLE,
)
def change_wanted(work: Work, season_id: UUID, taxon_id: UUID, sent: dict[str, Any]) -> SimpleNamespace:
    return put_line(work, season_id, taxon_id, sent)


@api.changes(
    LINE,
    method="DELETE",
    needs=Right.WANTED_EDIT,
    summary=say("Take a species off the list"),
    gives=WantedShown(),
    status=204,
    current=wanted_line,
)
def unwant(work: Work, season_id: UUID, taxon_id: UUID) -> None:
    actions.unwant(work, season_id=season_id, taxon_id=taxon_id)
