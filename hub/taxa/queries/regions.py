"""Ecoregions, and which of them a species grows in."""

from __future__ import annotations

from uuid import UUID

from sqlalchemy import select
from sqlalchemy.orm import defer

from hub.db.work import Work
from hub.groups.models import District
from hub.taxa.models import Ecoregion, TaxonEcoregion
from hub.words import NotFound


def get_ecoregion(work: Work, ecoregion_id: UUID) -> Ecoregion:
    """One ecoregion. Raises NotFound."""
    found = work.db.get(Ecoregion, ecoregion_id)
    if found is None:
        raise NotFound(ecoregion_id)
    return found


def ecoregions(work: Work, region_id: UUID, *, outlines: bool = False) -> list[Ecoregion]:
    """All ecoregions of a region, by code; their polygons, which are large, only with ``outlines``."""
    found = select(Ecoregion).where(Ecoregion.region_id == region_id)
    found = found if outlines else found.options(defer(Ecoregion.geometry, raiseload=True))
    return list(work.db.scalars(found.order_by(Ecoregion.scheme, Ecoregion.code)))


def districts(work: Work, region_id: UUID, *, outlines: bool = False) -> list[District]:
    """All districts of a region, by name; their polygons only with ``outlines``."""
    found = select(District).where(District.region_id == region_id)
    found = found if outlines else found.options(defer(District.geometry, raiseload=True))
    return list(work.db.scalars(found.order_by(District.name, District.id)))


def ecoregions_of(work: Work, taxon_id: UUID) -> list[Ecoregion]:
    """The ecoregions that a species grows in, of every region, by code."""
    found = (
        select(Ecoregion)
        .join(TaxonEcoregion, TaxonEcoregion.ecoregion_id == Ecoregion.id)
        .where(TaxonEcoregion.taxon_id == taxon_id)
        .options(defer(Ecoregion.geometry, raiseload=True))
    )
    return list(work.db.scalars(found.order_by(Ecoregion.region_id, Ecoregion.scheme, Ecoregion.code)))
