"""Permits of authorities: recorded by the bank, known to the groups that collect under them."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from marshmallow import fields

from hub.api.blueprint import api
from hub.api.listing import Asked, listing
from hub.api.rows import only
from hub.api.shown import Count, Shown
from hub.db.work import Work
from hub.rights.right import Right
from hub.sites import actions, queries
from hub.sites.models import Permit
from hub.sites.schemas import EndSchema, PermitSchema
from hub.web.fields import Identifier, Yes
from hub.web.paging import Page
from hub.words import say

PERMITS = listing("Permits", queries.PERMIT_ORDERS, holds=Yes(), taxon=Identifier())
ONE = "/permits/<uuid:permit_id>"
EXAMPLE = {
    "authority": "Vale Nature Office",
    "number": "VNO 12/2031",
    "taxon_id": "6ab1b8a0-6f3b-4b52-a7c4-6d0f6bb2b1ab",
    "starts_on": "2031-05-01",
    "ends_on": "2031-10-31",
    "cap_seeds": 2000,
}


class PermitShown(Shown):
    """A licence with its cap, for a taxon, a site, or both."""

    id = fields.UUID(attribute="Permit.id")
    authority = fields.String(attribute="Permit.authority")
    number = fields.String(attribute="Permit.number")
    taxon_id = fields.UUID(attribute="Permit.taxon_id", allow_none=True)
    species = fields.String(attribute="canonical", allow_none=True)
    site_id = fields.UUID(attribute="Permit.site_id", allow_none=True)
    site = fields.String(attribute="name", allow_none=True)
    starts_on = fields.Date(attribute="Permit.starts_on")
    ends_on = fields.Date(attribute="Permit.ends_on")
    ended_on = fields.Date(attribute="Permit.ended_on", allow_none=True)
    cap_seeds = Count("seeds", attribute="Permit.cap_seeds", allow_none=True)
    conditions = fields.String(attribute="Permit.conditions")


class PermitGivenSchema(PermitSchema):
    """A permit, with its species by id."""

    class Meta:
        exclude = ("species",)

    taxon_id = Identifier()


@api.shows(
    "/permits",
    needs=Right.SITE_READ,
    summary=say("The permits that this seat may know"),
    asks=PERMITS,
    gives=PermitShown(),
    paged=True,
)
def permits(work: Work, asked: Asked) -> Page:
    return asked.page(work, queries.permits(work, **asked.filters))


@api.shows(ONE, needs=Right.SITE_READ, summary=say("One permit"), gives=PermitShown())
def permit(work: Work, permit_id: UUID) -> Any:
    return only(work, queries.permits(work).where(Permit.id == permit_id))


@api.makes(
    "/permits",
    needs=Right.PERMIT_RECORD,
    summary=say("Record a permit"),
    takes=PermitGivenSchema(),
    gives=PermitShown(),
    leads_to="permit",
    example=EXAMPLE,
)
def record_permit(work: Work, sent: dict[str, Any]) -> Any:
    return permit(work, actions.record_permit(work, **sent).id)


api.verb(
    f"{ONE}/end",
    name="end_permit",
    does=actions.end_permit,
    shows=permit,
    needs=Right.PERMIT_RECORD,
    summary=say("Note that the authority took a permit back"),
    takes=EndSchema(),
    gives=PermitShown(),
)
