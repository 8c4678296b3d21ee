"""Sites: land with an owner. The list tells no place; one site tells it to the seats that are let in."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from marshmallow import fields

from hub.api.blueprint import api
from hub.api.listing import Asked, listing
from hub.api.rows import only
from hub.api.shown import Amount, Kept, PlaceShown, Shown, place_shown
from hub.db.work import Work
from hub.groups.models import Group
from hub.rights.right import Right
from hub.sites import actions, queries
from hub.sites.localities import public_place
from hub.sites.models import Site
from hub.sites.readings import exact_place_read
from hub.sites.rules import PermissionState, Risk
from hub.sites.schemas import ShareSchema, SiteSchema
from hub.taxa.models import Taxon
from hub.web.fields import Choice, Identifier
from hub.web.paging import Page
from hub.words import say

SITES = listing(
    "Sites", queries.ORDERS, state=Choice(PermissionState), district=Identifier(), taxon=Identifier()
)
ONE = "/sites/<uuid:site_id>"
GEOMETRY = {"description": "GeoJSON geometry (RFC 7946), WGS 84, where it was drawn."}
EXAMPLE = {
    "name": "Scar Top",
    "district_id": "6ab1b8a0-6f3b-4b52-a7c4-6d0f6bb2b1ab",
    "latitude": 47.8,
    "longitude": -28.2,
    "radius_m": 300,
    "owner_label": "The estate office",
}


class SiteShown(Shown):
    """A site without its place."""

    id = fields.UUID(attribute="Site.id")
    name = fields.String(attribute="Site.name")
    district_id = fields.UUID(attribute="Site.district_id")
    district = fields.String(attribute="name")
    ecoregion_id = fields.UUID(attribute="Site.ecoregion_id", allow_none=True)
    habitat = fields.String(attribute="Site.habitat")
    risks = fields.List(Kept(Risk), attribute="Site.risks", allow_none=True)
    protected_area = fields.Boolean(attribute="Site.protected_area", allow_none=True)
    own_consent_needed = fields.Boolean(attribute="Site.own_consent_needed", allow_none=True)
    permission = Choice(PermissionState, attribute="Permission.state", allow_none=True, dump_default=None)
    permission_ends_on = fields.Date(attribute="Permission.ends_on", allow_none=True, dump_default=None)


class SiteWhole(SiteShown):
    """A site with its exact place, for those let in, and with the place that others may know."""

    latitude = Amount("°", attribute="Site.latitude")
    longitude = Amount("°", attribute="Site.longitude")
    radius_m = Amount("m", attribute="Site.radius_m")
    outline = fields.Dict(attribute="Site.outline", allow_none=True, metadata=GEOMETRY)
    locality = fields.String(attribute="Site.locality")
    owner_label = fields.String(attribute="Site.owner_label")
    owner_email = fields.String(attribute="Site.owner_email")
    risk_note = fields.String(attribute="Site.risk_note")
    public_place = fields.Nested(PlaceShown)


class SiteChangeSchema(SiteSchema):
    """What is changed of a site: the members that are named."""


class LetInShown(Shown):
    """A group that is let in on a site."""

    id = fields.UUID(attribute="Group.id")
    name = fields.String(attribute="Group.name")


@api.shows(
    "/sites",
    needs=Right.SITE_READ,
    summary=say("The sites on which this seat is let in, without their places"),
    asks=SITES,
    gives=SiteShown(),
    paged=True,
)
def sites(work: Work, asked: Asked) -> Page:
    return asked.page(work, queries.sites(work, **asked.filters))


def whole(work: Work, site_id: UUID) -> dict[str, Any]:
    """A site with all that is shown of it."""
    row = only(work, queries.sites(work).where(Site.id == site_id))
    growing = [taxon for _, taxon in queries.populations_at(work, site_id)]
    place = place_shown(public_place(row.Site, growing))
    return {"Site": row.Site, "name": row.name, "Permission": row.Permission, "public_place": place}


@api.shows(
    ONE,
    needs=Right.SITE_READ,
    summary=say("One site with its exact place; the reading is noted"),
    gives=SiteWhole(),
)
def site(work: Work, site_id: UUID) -> dict[str, Any]:
    found = whole(work, site_id)
    exact_place_read(work, found["Site"], taxa_at(work, site_id))
    return found


def taxa_at(work: Work, site_id: UUID) -> list[Taxon]:
    return [taxon for _, taxon in queries.populations_at(work, site_id)]


@api.makes(
    "/sites",
    needs=Right.SITE_EDIT,
    summary=say("Open a site"),
    takes=SiteSchema(),
    gives=SiteWhole(),
    leads_to="site",
    example=EXAMPLE,
)
def open_site(work: Work, sent: dict[str, Any]) -> dict[str, Any]:
    return whole(work, actions.open_site(work, **sent).id)


@api.changes(
    ONE,
    needs=Right.SITE_EDIT,
    summary=say("Change a site"),
    takes=SiteChangeSchema(partial=True),
    gives=SiteWhole(),
    current=whole,
    example={"habitat": "limestone scar"},
)
def change_site(work: Work, site_id: UUID, sent: dict[str, Any]) -> dict[str, Any]:
    actions.change_site(work, site_id=site_id, **sent)
    work.db.flush()
    return whole(work, site_id)


@api.shows(
    f"{ONE}/groups",
    needs=Right.SITE_SHARE,
    summary=say("The groups that are let in on a site"),
    gives=LetInShown(),
    many=True,
)
def let_in(work: Work, site_id: UUID) -> list[dict[str, Any]]:
    found = queries.groups_let_in(work, queries.get_site(work, site_id).id)
    return [{"Group": Group(id=group_id, name=name)} for group_id, name in found]


api.verb(
    f"{ONE}/groups",
    name="share_site",
    does=actions.share_site,
    shows=let_in,
    needs=Right.SITE_SHARE,
    summary=say("Let a group in on a site"),
    takes=ShareSchema(),
    gives=LetInShown(),
    many=True,
)


def let_in_now(work: Work, site_id: UUID, group_id: UUID) -> list[dict[str, Any]]:
    return let_in(work, site_id)


@api.changes(
    f"{ONE}/groups/<uuid:group_id>",
    method="DELETE",
    needs=Right.SITE_SHARE,
    summary=say("Take a group’s view of a site away; If-Match is the tag of the list"),
    gives=LetInShown(),
    many=True,
    current=let_in_now,
)
def unshare_site(work: Work, site_id: UUID, group_id: UUID) -> list[dict[str, Any]]:
    actions.unshare_site(work, site_id=site_id, group_id=group_id)
    work.db.flush()
    return let_in(work, site_id)
