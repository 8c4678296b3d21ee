"""Which species a group may adopt.

How many groups hold a species is counted across all tenants, and a group may know that number and nothing
behind it. So it is read from ``StageCount``, which is open to all because it names no group and no place
smaller than a district; counting the adoptions themselves would find only those that the asking seat sees.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from typing import Any
from uuid import UUID

from sqlalchemy import ColumnElement, Select, and_, exists, func, or_, select

from hub.adoptions.models import StageCount
from hub.db.work import Work
from hub.groups.models import District
from hub.taxa import queries as taxa
from hub.taxa.models import Difficulty, Need, Taxon, Wanted
from hub.taxa.rules import CareClass

SPECIES_ORDERS: dict[str, Sequence[Any]] = {
    "priority": (Wanted.priority, Taxon.canonical, Taxon.id),
    "name": (Taxon.canonical, Taxon.id),
    "name-down": (Taxon.canonical.desc(), Taxon.id),
    "ripens": (Taxon.ripens_from, Taxon.canonical, Taxon.id),
}


def holders(work: Work, season_id: UUID, taxon_id: UUID) -> int:
    """How many groups hold a species in a season, or have asked for it."""
    found = select(func.coalesce(func.sum(StageCount.adoptions), 0)).where(
        StageCount.season_id == season_id, StageCount.taxon_id == taxon_id
    )
    return int(work.db.scalar(found) or 0)


def holders_of_season(work: Work, season_id: UUID, taxon_ids: Iterable[UUID]) -> dict[UUID, int]:
    """How many groups hold each of some species, or have asked for it."""
    found = (
        select(StageCount.taxon_id, func.sum(StageCount.adoptions))
        .where(StageCount.season_id == season_id, StageCount.taxon_id.in_(list(taxon_ids)))
        .group_by(StageCount.taxon_id)
    )
    return {taxon_id: int(groups) for taxon_id, groups in work.db.execute(found)}


def species_to_adopt(
    work: Work,
    *,
    season_id: UUID,
    search: str | None = None,
    district: UUID | None = None,
    month: int | None = None,
    difficulty: Difficulty | None = None,
    care: CareClass | None = None,
    school: bool = False,
    free: bool = False,
) -> Select[Wanted, Taxon]:
    """The season's wanted species that can be adopted at all, as (wanted, taxon).

    ``month`` asks for fruit that is ripe in it; ``free`` for fewer holders than populations needed.
    """
    found = (
        select(Wanted, Taxon)
        .join(Taxon, Taxon.id == Wanted.taxon_id)
        .where(Wanted.season_id == season_id, Taxon.native.is_not(False), Taxon.care_class != CareClass.GONE)
    )
    asked: list[tuple[Any, ColumnElement[bool]]] = [
        (search, taxa.matching(search or "")),
        (district, needed_in(district)),
        (month, ripe_in(month or 0)),
        (difficulty, Taxon.difficulty == difficulty),
        (care, Taxon.care_class == care),
        (school, Taxon.suits_school.is_(True)),
        (free, still_needed()),
    ]
    return found.where(*(condition for value, condition in asked if value))


def needed_in(district_id: UUID | None) -> ColumnElement[bool]:
    """Wanted from this district, or from anywhere."""
    here = or_(Need.district_id == district_id, Need.district_id.is_(None))
    anywhere = ~exists().where(Need.wanted_id == Wanted.id)
    return or_(anywhere, exists().where(Need.wanted_id == Wanted.id, here))


def ripe_in(month: int) -> ColumnElement[bool]:
    """Fruit ripens in this month; some ripens over the turn of the year."""
    first, last = Taxon.ripens_from, func.coalesce(Taxon.ripens_to, Taxon.ripens_from)
    within = and_(first <= month, last >= month)
    over_the_turn = and_(first > last, or_(first <= month, last >= month))
    return or_(within, over_the_turn)


def still_needed() -> ColumnElement[bool]:
    """Fewer groups hold it than populations are needed."""
    groups = select(func.coalesce(func.sum(StageCount.adoptions), 0)).where(
        StageCount.season_id == Wanted.season_id, StageCount.taxon_id == Wanted.taxon_id
    )
    needed = select(func.coalesce(func.sum(Need.populations), 1)).where(Need.wanted_id == Wanted.id)
    return groups.correlate(Wanted).scalar_subquery() < needed.correlate(Wanted).scalar_subquery()


def needs_of_lines(work: Work, wanted_ids: Iterable[UUID]) -> dict[UUID, list[Need]]:
    """The needs of several lines of the wanted list, in one question."""
    found: dict[UUID, list[Need]] = defaultdict(list)
    for need in work.db.scalars(select(Need).where(Need.wanted_id.in_(list(wanted_ids))).order_by(Need.id)):
        found[need.wanted_id].append(need)
    return found


def districts_of(work: Work, region_id: UUID | None) -> list[tuple[UUID, str]]:
    """The districts of a region by name, as (id, name): without their polygons, which are large."""
    found = select(District.id, District.name).where(District.region_id == region_id)
    return [(district_id, name) for district_id, name in work.db.execute(found.order_by(District.name))]
