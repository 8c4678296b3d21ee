"""A bank's seasons."""

from __future__ import annotations

from collections.abc import Sequence
from uuid import UUID

from sqlalchemy import Row, func, select

from hub.db.work import Work
from hub.groups.models import Bank
from hub.taxa.models import Season, Wanted
from hub.words import NotFound

MOST_SEASONS = 60


def get_season(work: Work, season_id: UUID) -> Season:
    """One season of any bank; seasons are public. Raises NotFound."""
    found = work.db.get(Season, season_id)
    if found is None:
        raise NotFound(season_id)
    return found


def get_own_season(work: Work, season_id: UUID) -> Season:
    """A season that this seat may change: one of its own bank. Raises NotFound for any other."""
    season = get_season(work, season_id)
    if season.bank_id != work.scope.own_bank_id and not work.scope.spans_tenants:
        raise NotFound(season_id)
    return season


def season_of(work: Work, bank_id: UUID, year: int) -> Season | None:
    """The season of one year."""
    return work.db.scalars(select(Season).where(Season.bank_id == bank_id, Season.year == year)).one_or_none()


def current_season(work: Work, bank_id: UUID) -> Season | None:
    """The season that is open today, or else the next to open; None when all have closed."""
    found = select(Season).where(Season.bank_id == bank_id, Season.closes_on >= work.today)
    return work.db.scalars(found.order_by(Season.opens_on).limit(1)).first()


def every_season(work: Work) -> Sequence[Row[Season, Bank]]:
    """The newest seasons of every bank, each with its bank; within a year the longest list comes first."""
    lines = select(func.count()).where(Wanted.season_id == Season.id).scalar_subquery()
    found = select(Season, Bank).join(Bank, Bank.id == Season.bank_id)
    return work.db.execute(
        found.order_by(Season.year.desc(), lines.desc(), Bank.name).limit(MOST_SEASONS)
    ).all()


def seasons(work: Work, bank_id: UUID) -> list[Season]:
    """All seasons of a bank, the newest first."""
    return list(work.db.scalars(select(Season).where(Season.bank_id == bank_id).order_by(Season.year.desc())))
