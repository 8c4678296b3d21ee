"""Counts by district over all species, and the species that are banked: what the map and visitors see."""

from __future__ import annotations

from collections.abc import Sequence
from uuid import UUID

from sqlalchemy import func, select

from hub.adoptions.models import StageCount
from hub.adoptions.rules import Stage
from hub.db.work import Work
from hub.progress.queries.years import RegionYear
from hub.taxa.models import Taxon
from hub.taxa.queries import KEPT_BACK, is_visitor, matching
from hub.taxa.rules import CareClass

Counts = dict[UUID, dict[Stage, int]]


def by_district(
    work: Work, year: RegionYear, *, search: str | None = None, care: CareClass | None = None
) -> Counts:
    """Adoptions at each stage in each district of a region, of all species or of those asked for.

    For a visitor those are left out whose places are kept back: a count of one would tell the district.
    """
    found = select(StageCount.district_id, StageCount.stage, func.sum(StageCount.adoptions)).where(
        StageCount.season_id.in_(year.season_ids), StageCount.adoptions > 0
    )
    hides = is_visitor(work)
    if search or care is not None or hides:
        found = found.join(Taxon, Taxon.id == StageCount.taxon_id)
    if hides:
        found = found.where(~KEPT_BACK)
    if search:
        found = found.where(matching(search))
    if care is not None:
        found = found.where(Taxon.care_class == care)
    counts: Counts = {district.id: {} for district in year.districts}
    for district_id, stage, adoptions in work.db.execute(
        found.group_by(StageCount.district_id, StageCount.stage)
    ):
        counts.setdefault(district_id, {})[stage] = int(adoptions)
    return counts


def banked_species(work: Work, year: RegionYear) -> Sequence[Taxon]:
    """The species of which seed was banked in a year, by name. They say nothing of where it grew."""
    banked = select(StageCount.taxon_id).where(
        StageCount.season_id.in_(year.season_ids),
        StageCount.stage == Stage.BANKED,
        StageCount.adoptions > 0,
    )
    return list(
        work.db.scalars(select(Taxon).where(Taxon.id.in_(banked)).order_by(Taxon.canonical, Taxon.id))
    )
