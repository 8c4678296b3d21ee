"""A region in one year: the seasons of all its banks, and its districts with their outlines."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from uuid import UUID

from sqlalchemy import func, select

from hub.db.work import Work
from hub.groups.models import Bank, District, Region
from hub.taxa.models import Season
from hub.taxa.queries import districts


@dataclass(frozen=True)
class RegionYear:
    """What every page of progress is about. ``years`` are those there are, the newest first."""

    region: Region
    year: int
    years: list[int]
    season_ids: list[UUID]
    districts: list[District]

    @property
    def names(self) -> dict[UUID, str]:
        return {district.id: district.name for district in self.districts}


def regions(work: Work) -> list[Region]:
    """All regions, the one with the most districts first: what a reader sees who belongs to none."""
    size = select(func.count()).where(District.region_id == Region.id).scalar_subquery()
    return list(work.db.scalars(select(Region).order_by(size.desc(), Region.name, Region.id)))


def year_of(work: Work, region: Region, year: int | None = None) -> RegionYear | None:
    """A region in the year asked for, else in the running one, else in the newest. None without seasons."""
    found = select(Season).join(Bank, Bank.id == Season.bank_id).where(Bank.region_id == region.id)
    seasons = list(work.db.scalars(found.order_by(Season.year.desc(), Season.id)))
    if not seasons:
        return None
    years = list(dict.fromkeys(season.year for season in seasons))
    chosen = year if year in years else running(seasons, work.today)
    return RegionYear(
        region,
        chosen,
        years,
        [season.id for season in seasons if season.year == chosen],
        districts(work, region.id, outlines=True),
    )


def running(seasons: Sequence[Season], today: date) -> int:
    """The year of the season that is open today, or of the last to have opened, or of the first to come."""
    opened = [season.year for season in seasons if season.opens_on <= today]
    return opened[0] if opened else seasons[-1].year
