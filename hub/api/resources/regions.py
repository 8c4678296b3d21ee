"""Regions with their districts and ecoregions, and the banks: all of it public."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from marshmallow import fields
from sqlalchemy import select
from sqlalchemy.orm import defer

from hub.api.blueprint import api
from hub.api.listing import Asked, listing
from hub.api.rows import only, said_in, where_given
from hub.api.shown import Shown
from hub.db.work import Work
from hub.groups.models import Bank, District, Region
from hub.rights.right import Right
from hub.taxa.models import Ecoregion
from hub.web.fields import Identifier
from hub.web.paging import Page
from hub.words import say

GEOMETRY = {"type": "object", "description": "GeoJSON geometry (RFC 7946), WGS 84."}
REGIONS = listing("Regions", {"name": (Region.name, Region.id), "code": (Region.code, Region.id)})
BANKS = listing("Banks", {"name": (Bank.name, Bank.id), "code": (Bank.code, Bank.id)}, region_id=Identifier())
DISTRICTS = listing(
    "Districts",
    {"name": (District.name, District.id), "code": (District.code, District.id)},
    region_id=Identifier(),
)
ECOREGIONS = listing(
    "Ecoregions",
    {"code": (Ecoregion.code, Ecoregion.id), "name": (Ecoregion.name, Ecoregion.id)},
    region_id=Identifier(),
)


class RegionShown(Shown):
    """A unit of coordination."""

    id = fields.UUID()
    code = fields.String()
    name = fields.String()


class BankShown(RegionShown):
    """An institution that keeps seed."""

    region_id = fields.UUID()
    zone = fields.String()


class DistrictShown(RegionShown):
    """A part of a region."""

    region_id = fields.UUID()


class DistrictOutlined(DistrictShown):
    """A district with its polygon."""

    geometry = fields.Dict(metadata=GEOMETRY)


class EcoregionShown(DistrictShown):
    """A unit of ecology."""

    scheme = fields.String()


class EcoregionOutlined(EcoregionShown):
    """An ecoregion with its polygon."""

    geometry = fields.Dict(metadata=GEOMETRY)


@api.shows(
    "/regions",
    needs=Right.PUBLIC_READ,
    summary=say("Regions"),
    asks=REGIONS,
    gives=RegionShown(),
    paged=True,
)
def regions(work: Work, asked: Asked) -> Page:
    found = select(Region).where(said_in(asked.filters["search"], Region.name, Region.code))
    return asked.page(work, found)


@api.shows("/banks", needs=Right.PUBLIC_READ, summary=say("Banks"), asks=BANKS, gives=BankShown(), paged=True)
def banks(work: Work, asked: Asked) -> Page:
    return asked.page(work, in_region(Bank, asked))


@api.shows(
    "/districts",
    needs=Right.PUBLIC_READ,
    summary=say("Districts, without their polygons"),
    asks=DISTRICTS,
    gives=DistrictShown(),
    paged=True,
)
def districts(work: Work, asked: Asked) -> Page:
    return asked.page(work, in_region(District, asked).options(defer(District.geometry)))


@api.shows(
    "/districts/<uuid:district_id>",
    needs=Right.PUBLIC_READ,
    summary=say("One district with its polygon"),
    gives=DistrictOutlined(),
)
def district(work: Work, district_id: UUID) -> District:
    return only(work, select(District).where(District.id == district_id))


@api.shows(
    "/ecoregions",
    needs=Right.PUBLIC_READ,
    summary=say("Ecoregions, without their polygons"),
    asks=ECOREGIONS,
    gives=EcoregionShown(),
    paged=True,
)
def ecoregions(work: Work, asked: Asked) -> Page:
    return asked.page(work, in_region(Ecoregion, asked).options(defer(Ecoregion.geometry)))


@api.shows(
    "/ecoregions/<uuid:ecoregion_id>",
    needs=Right.PUBLIC_READ,
    summary=say("One ecoregion with its polygon"),
    gives=EcoregionOutlined(),
)
def ecoregion(work: Work, ecoregion_id: UUID) -> Ecoregion:
    return only(work, select(Ecoregion).where(Ecoregion.id == ecoregion_id))


def in_region(kind: Any, asked: Asked) -> Any:
    """Rows of a kind, of one region if it is named."""
    found = select(kind).where(said_in(asked.filters["search"], kind.name, kind.code))
    return found.where(*where_given({kind.region_id: asked.filters["region_id"]}))
