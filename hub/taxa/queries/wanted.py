"""The wanted list of a season."""

from __future__ import annotations

from uuid import UUID

from sqlalchemy import select

from hub.db.work import Work
from hub.taxa.models import Need, Wanted


def wanted_of(work: Work, season_id: UUID, taxon_id: UUID) -> Wanted | None:
    """A species' line on a season's list."""
    found = select(Wanted).where(Wanted.season_id == season_id, Wanted.taxon_id == taxon_id)
    return work.db.scalars(found).one_or_none()


def needs_of(work: Work, wanted_id: UUID) -> list[Need]:
    """How many populations are needed, and from where, in a fixed order."""
    found = select(Need).where(Need.wanted_id == wanted_id)
    return list(work.db.scalars(found.order_by(Need.ecoregion_id, Need.district_id, Need.id)))
