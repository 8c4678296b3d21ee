"""What is spoken for under a permit’s cap, at every site it covers and by every group.

A group may not see the sites of others, yet a cap binds all of them together. So this one figure is read
across tenants, in a reading of its own; nothing of it but the sum comes back.
"""

from __future__ import annotations

from sqlalchemy import ColumnElement, Engine, Select, func, select

from hub.adoptions.models import Adoption
from hub.db.work import House, Work
from hub.protocols.models import IssuedSheet, SheetState
from hub.rights.scope import Scope
from hub.sites.models import Permit, Population, TakeAccount

SUMMING = Scope.everyone(because="adding up what is taken under a permit")


def spoken_for(work: Work, permit: Permit, adoption: Adoption) -> int:
    """Seeds taken or reserved under a permit, less what this adoption’s own current sheets keep free."""
    if permit.cap_seeds is None:
        return 0
    engine: Engine = work.db.get_bind().engine
    with House(work.settings, engine, work.files).work(SUMMING, now=work.now, reads_only=True) as apart:
        everybody = apart.db.scalar(taken_under(permit)) or 0
        own = apart.db.scalar(kept_by(permit, adoption)) or 0
    return max(0, int(everybody) - int(own))


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
