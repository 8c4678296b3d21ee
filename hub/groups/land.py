"""The lie of the land: regions, their districts, and the banks that stand in them."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from sqlalchemy import select

from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.work import Work
from hub.groups.models import Bank, District, Region
from hub.science.outlines import read_outline
from hub.words import NotFound, Refused, say


def add_region(work: Work, *, code: str, name: str) -> Region:
    """Lay out a region. Raises Refused for a code that is taken."""
    refuse_taken(work, Region, code)
    region = Region(code=code, name=name)
    work.db.add(region)
    work.db.flush()  # its id is about to be named in the audit chain
    record(work, Event.REGION_MADE, region, after={"code": code, "name": name})
    return region


def add_district(work: Work, *, region_id: UUID, code: str, name: str, geometry: dict[str, Any]) -> District:
    """Add a district with its outline, a GeoJSON geometry or feature. Raises Refused or NotFound."""
    if work.db.get(Region, region_id) is None:
        raise NotFound(region_id)
    try:
        outline = read_outline(geometry)
    except Refused as unreadable:
        raise Refused(unreadable.words, field="geometry") from None
    taken = select(District.id).where(District.region_id == region_id, District.code == code)
    if work.db.scalars(taken).first():
        raise Refused(say("The code {code} is taken.", code=code), field="code")
    district = District(region_id=region_id, code=code, name=name, geometry=outline)
    work.db.add(district)
    work.db.flush()  # its id is about to be named in the audit chain
    record(work, Event.DISTRICT_ADDED, district, after={"code": code, "name": name})
    return district


def add_bank(work: Work, *, region: UUID, code: str, name: str, email: str, zone: str) -> Bank:
    """Found a bank in a region. Raises Refused for a code that is taken or a region that is not there."""
    if work.db.get(Region, region) is None:
        raise Refused(say("Please choose one of the regions."), field="region")
    refuse_taken(work, Bank, code)
    bank = Bank(region_id=region, code=code, name=name, email=email, zone=zone)
    work.db.add(bank)
    work.db.flush()  # its id is about to be named in the audit chain
    record(work, Event.BANK_MADE, bank, after={"code": code, "name": name})
    return bank


def refuse_taken(work: Work, kind: type[Region] | type[Bank], code: str) -> None:
    if work.db.scalars(select(kind.id).where(kind.code == code)).first():
        raise Refused(say("The code {code} is taken.", code=code), field="code")


def draw_region(work: Work, *, region_id: UUID, outline: dict[str, Any]) -> Region:
    """Put rivers and lakes on a region's map: lists of GeoJSON geometries by kind, to find one's way by."""
    region = work.db.get_one(Region, region_id)
    region.outline = outline
    record(work, Event.REGION_MADE, region, after={"outline": sorted(outline)})
    return region
