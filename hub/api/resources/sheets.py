"""Protocol sheets: listed, read as they were frozen, issued and withdrawn."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from marshmallow import fields

from hub.api.blueprint import api
from hub.api.listing import Asked, listing
from hub.api.rows import only
from hub.api.shown import Kept, Moment, Shown
from hub.db.work import Work
from hub.protocols import actions, listed, queries
from hub.protocols.models import IssuedSheet, SheetState
from hub.protocols.schemas import ReasonSchema
from hub.protocols.sheet import Status
from hub.rights.right import Right
from hub.web.fields import Choice, Identifier
from hub.web.paging import Page
from hub.words import NotFound, say

SHEETS = listing("Sheets", listed.ORDERS, state=Choice(SheetState), says=Choice(Status), taxon=Identifier())
ONE = "/sheets/<uuid:sheet_id>"


class SheetShown(Shown):
    """An issued sheet, without what it says."""

    id = fields.UUID(attribute="IssuedSheet.id")
    number = fields.String(attribute="IssuedSheet.number")
    group_id = fields.UUID(attribute="IssuedSheet.group_id")
    group = fields.String(attribute="name")
    adoption_id = fields.UUID(attribute="IssuedSheet.adoption_id")
    population_id = fields.UUID(attribute="IssuedSheet.population_id")
    population = fields.String(attribute="code", allow_none=True)
    taxon_id = fields.UUID(attribute="IssuedSheet.taxon_id")
    scientific_name = fields.String(attribute="Taxon.scientific_name")
    year = fields.Integer()
    state = Choice(SheetState, attribute="IssuedSheet.state")
    status = Kept(Status, attribute="IssuedSheet.status")
    rulebook = fields.String(attribute="IssuedSheet.rulebook")
    issued_at = Moment(attribute="IssuedSheet.issued_at")
    ended_at = Moment(attribute="IssuedSheet.ended_at", allow_none=True)
    replaced_by_id = fields.UUID(attribute="IssuedSheet.replaced_by_id", allow_none=True)
    reason = fields.String(attribute="IssuedSheet.reason")


class SheetBodyShown(Shown):
    """What a sheet says, as it was frozen: each line with its words, rules, evidence and inputs."""

    status = Kept(Status)
    on = fields.String(metadata={"format": "date"})
    season = fields.Integer()
    route = fields.String()
    reasons = fields.List(fields.Dict())
    headline = fields.Dict()
    sections = fields.Dict()
    considered = fields.List(fields.Dict())
    asks = fields.List(fields.Dict())
    overrides = fields.List(fields.Dict())
    sources = fields.List(fields.Dict())
    case = fields.Dict()
    heard = fields.List(fields.String())
    rulebook = fields.String()


class SheetWhole(SheetShown):
    """An issued sheet with the facts it rests on and all that it says."""

    case = fields.Dict(attribute="IssuedSheet.case")
    body = fields.Nested(SheetBodyShown, attribute="IssuedSheet.body")


@api.shows(
    "/sheets",
    needs=Right.SHEET_READ,
    summary=say("The sheets that this seat may see"),
    asks=SHEETS,
    gives=SheetShown(),
    paged=True,
)
def sheets(work: Work, asked: Asked) -> Page:
    return asked.page(work, listed.sheets(work, **asked.filters))


@api.shows(ONE, needs=Right.SHEET_READ, summary=say("One sheet as it was frozen"), gives=SheetWhole())
def sheet(work: Work, sheet_id: UUID) -> Any:
    return only(work, listed.sheets(work).where(IssuedSheet.id == sheet_id))


@api.shows(
    "/sheets/by-number/<number>",
    needs=Right.SHEET_READ,
    summary=say("The sheet with this number, however its letters and dashes are written"),
    gives=SheetWhole(),
)
def sheet_by_number(work: Work, number: str) -> Any:
    issued = queries.by_number(work, number)
    if issued is None:
        raise NotFound("sheet")
    return sheet(work, issued.id)


@api.makes(
    "/adoptions/<uuid:adoption_id>/populations/<uuid:population_id>/sheets",
    needs=Right.SHEET_ISSUE,
    summary=say("Issue the sheet of an adoption at a population; an unchanged case gives the current one"),
    gives=SheetWhole(),
    leads_to="sheet",
)
def issue_sheet(work: Work, adoption_id: UUID, population_id: UUID) -> Any:
    return sheet(work, actions.issue(work, adoption_id=adoption_id, population_id=population_id).id)


api.verb(
    f"{ONE}/withdraw",
    name="withdraw_sheet",
    does=actions.withdraw,
    shows=sheet,
    needs=Right.RULE_OVERRIDE,
    summary=say("Take a current sheet back"),
    takes=ReasonSchema(),
    gives=SheetWhole(),
)
