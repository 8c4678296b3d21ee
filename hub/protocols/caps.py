"""What binds all groups together: what is spoken for under a permit’s cap, and how many share a population.

A group may not see the sites and adoptions of others, yet a cap and a fair share are everybody’s. So these
two figures are read across tenants, in a reading of their own; nothing of it but the number comes back.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from uuid import UUID

from sqlalchemy import ColumnElement, Engine, Select, func, select

from hub.adoptions.models import AdoptedPopulation, Adoption
from hub.adoptions.rules import HOLDING
from hub.db.work import House, Work
from hub.protocols.models import IssuedSheet, SheetState
from hub.rights.scope import Scope
from hub.sites.models import Permit, Population, TakeAccount

SUMMING = Scope.everyone(because="adding up what is taken under a permit")


def spoken_for(work: Work, permit: Permit, adoption: Adoption) -> int:
    """Seeds taken or reserved under a permit, less what this adoption’s own current sheets keep free."""
    if permit.cap_seeds is None:
        return 0
    with apart(work) as everybody:
        taken = everybody.db.scalar(taken_under(permit)) or 0
        own = everybody.db.scalar(kept_by(permit, adoption)) or 0
    return max(0, int(taken) - int(own))


@contextmanager
def apart(work: Work) -> Iterator[Work]:
    """A reading of its own across all tenants, at the same moment."""
    engine: Engine = work.db.get_bind().engine
    with House(work.settings, engine, work.files).work(SUMMING, now=work.now, reads_only=True) as everybody:
        yield everybody


def groups_holding(work: Work, population_id: UUID, season_id: UUID) -> int:
    """How many groups hold a population this season; which they are, no other group learns."""
    holding = select(func.count(AdoptedPopulation.id)).join(
        Adoption, Adoption.id == AdoptedPopulation.adoption_id
    )
    here = (AdoptedPopulation.population_id == population_id, Adoption.season_id == season_id)
    with apart(work) as everybody:
        return int(everybody.db.scalar(holding.where(*here, Adoption.state.in_(HOLDING))) or 0)


def taken_under(permit: Permit) -> Select[int | None]:
    """All that left, or is to leave, the permit’s populations in its years."""
    seeds = func.sum(TakeAccount.taken_seeds + TakeAccount.reserved_seeds)
    found = select(seeds).join(Population, Population.id == TakeAccount.population_id)
    years = TakeAccount.year.between(permit.starts_on.year, permit.ends_on.year)
    return found.where(years, *covered(permit))


def kept_by(permit: Permit, adoption: Adoption) -> Select[int | None]:
    """What the adoption’s current sheets keep free, to which a new sheet of it adds nothing."""
    found = select(func.sum(IssuedSheet.reserved_seeds))
    found = found.join(Population, Population.id == IssuedSheet.population_id)
    mine = (IssuedSheet.adoption_id == adoption.id, IssuedSheet.state == SheetState.CURRENT)
    return found.where(*mine, *covered(permit))


def covered(permit: Permit) -> list[ColumnElement[bool]]:
    """The populations that a permit speaks of."""
    conditions = [Population.bank_id == permit.bank_id]
    if permit.taxon_id is not None:
        conditions.append(Population.taxon_id == permit.taxon_id)
    if permit.site_id is not None:
        conditions.append(Population.site_id == permit.site_id)
    return conditions
