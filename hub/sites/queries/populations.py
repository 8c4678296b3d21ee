"""Populations with their censuses, salvage cases and the account of what may leave them."""

from __future__ import annotations

from collections.abc import Sequence
from uuid import UUID

from sqlalchemy import select

from hub.db.work import Work
from hub.groups.queries import there
from hub.sites.models import Census, Population, Salvage, TakeAccount
from hub.sites.rules import SalvageState, salvage_holds
from hub.taxa.models import Taxon


def get_population(work: Work, population_id: UUID, *, locked: bool = False) -> Population:
    """One population at a site that this seat is let in on. Raises NotFound."""
    found = select(Population).where(Population.id == population_id)
    return there(work.db.scalars(found.with_for_update() if locked else found).one_or_none(), population_id)


def populations_of(work: Work, taxon_id: UUID) -> list[Population]:
    """The populations of a taxon that this seat may see, by code; retired ones are left out."""
    found = select(Population).where(Population.taxon_id == taxon_id, Population.retired_at.is_(None))
    return list(work.db.scalars(found.order_by(Population.code, Population.id)))


def populations_at(work: Work, site_id: UUID) -> Sequence[tuple[Population, Taxon]]:
    """The populations at a site with their taxa, those that are retired last."""
    found = select(Population, Taxon).join(Taxon, Taxon.id == Population.taxon_id)
    found = found.where(Population.site_id == site_id)
    return work.db.execute(found.order_by(Population.retired_at.is_not(None), Population.code)).all()


def censuses(work: Work, population_id: UUID) -> list[Census]:
    """Every census of a population, oldest first."""
    found = select(Census).where(Census.population_id == population_id)
    return list(work.db.scalars(found.order_by(Census.counted_on, Census.noted_at, Census.id)))


def latest_census(work: Work, population_id: UUID) -> Census | None:
    """The census of the latest day; of several on one day, the one noted last."""
    found = select(Census).where(Census.population_id == population_id)
    newest = found.order_by(Census.counted_on.desc(), Census.noted_at.desc(), Census.id.desc())
    return work.db.scalars(newest.limit(1)).first()


def get_salvage(work: Work, salvage_id: UUID, *, locked: bool = False) -> Salvage:
    """One salvage case. Raises NotFound."""
    found = select(Salvage).where(Salvage.id == salvage_id)
    return there(work.db.scalars(found.with_for_update() if locked else found).one_or_none(), salvage_id)


def newest_salvage(work: Work, population_id: UUID) -> Salvage | None:
    """The newest case of a population, whatever its state."""
    found = select(Salvage).where(Salvage.population_id == population_id)
    return work.db.scalars(found.order_by(Salvage.asked_at.desc(), Salvage.id.desc()).limit(1)).first()


def salvage_of(work: Work, population_id: UUID) -> Salvage | None:
    """The approved case of a population, if there is one and the day of its loss is not over."""
    found = select(Salvage).where(
        Salvage.population_id == population_id, Salvage.state == SalvageState.APPROVED
    )
    case = work.db.scalars(found.order_by(Salvage.asked_at.desc(), Salvage.id.desc()).limit(1)).first()
    if case is None:
        return None
    asked_on = case.asked_at.astimezone(work.zone).date()
    return (
        case if salvage_holds(work.today, loss_expected_on=case.loss_expected_on, asked_on=asked_on) else None
    )


def take_account(work: Work, population_id: UUID, year: int) -> TakeAccount | None:
    """What may leave a population in a year and what is spoken for, once a sheet has reckoned it."""
    found = select(TakeAccount).where(TakeAccount.population_id == population_id, TakeAccount.year == year)
    return work.db.scalars(found).one_or_none()


def newest_counts(work: Work, site_id: UUID) -> dict[UUID, Census]:
    """The latest census of each population at a site."""
    found = select(Census).where(Census.site_id == site_id)
    in_order = work.db.scalars(found.order_by(Census.counted_on, Census.noted_at, Census.id))
    return {census.population_id: census for census in in_order}
