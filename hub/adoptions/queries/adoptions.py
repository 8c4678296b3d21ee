"""Adoptions that a seat may see, and the populations they collect from."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any
from uuid import UUID

from sqlalchemy import Select, func, or_, select

from hub.adoptions.models import AdoptedPopulation, Adoption
from hub.adoptions.rules import AdoptionState, Stage
from hub.audit import queries as audit
from hub.audit.models import AuditEntry
from hub.db.work import Work
from hub.groups.models import District, Group
from hub.groups.queries import there
from hub.sites.models import Population
from hub.taxa import queries as taxa
from hub.taxa.models import Season, Taxon
from hub.words import NotFound

ORDERS: dict[str, Sequence[Any]] = {
    "newest": (Adoption.asked_at.desc(), Adoption.id),
    "oldest": (Adoption.asked_at, Adoption.id),
    "species": (Taxon.canonical, Adoption.id),
    "species-down": (Taxon.canonical.desc(), Adoption.id),
    "group": (func.lower(Group.name), Adoption.id),
    "group-down": (func.lower(Group.name).desc(), Adoption.id),
    "moved": (Adoption.moved_at.desc(), Adoption.id),
    "moved-up": (Adoption.moved_at, Adoption.id),
}


def get(work: Work, adoption_id: UUID, *, locked: bool = False) -> Adoption:
    """One adoption that this seat may see. Raises NotFound. ``locked`` reads it afresh, and keeps it."""
    found = select(Adoption).where(Adoption.id == adoption_id)
    if locked:
        found = found.with_for_update().execution_options(populate_existing=True)
    return there(work.db.scalars(found).one_or_none(), adoption_id)


def ours(work: Work, *, season_id: UUID | None = None) -> list[Adoption]:
    """The asking group's own adoptions, the newest first; of one season, if it is named."""
    found = select(Adoption).where(Adoption.group_id == work.scope.own_group_id)
    if season_id is not None:
        found = found.where(Adoption.season_id == season_id)
    return list(work.db.scalars(found.order_by(Adoption.asked_at.desc(), Adoption.id)))


def adoptions(
    work: Work,
    *,
    search: str | None = None,
    state: AdoptionState | None = None,
    stage: Stage | None = None,
    season: UUID | None = None,
    taxon: UUID | None = None,
    group: UUID | None = None,
    district: UUID | None = None,
) -> Select[Adoption, Taxon, str, str, int]:
    """The adoptions this seat may see, each with its taxon, and the names of its group and district."""
    found = (
        select(Adoption, Taxon, Group.name.label("group"), District.name.label("district"), Season.year)
        .join(Taxon, Taxon.id == Adoption.taxon_id)
        .join(Group, Group.id == Adoption.group_id)
        .join(District, District.id == Adoption.district_id)
        .join(Season, Season.id == Adoption.season_id)
    )
    if search:
        found = found.where(or_(taxa.matching(search), Group.name.icontains(search, autoescape=True)))
    wanted = {"state": state, "stage": stage, "season_id": season, "taxon_id": taxon}
    wanted |= {"group_id": group, "district_id": district}
    return found.where(
        *(getattr(Adoption, name) == value for name, value in wanted.items() if value is not None)
    )


def populations_held(work: Work, adoption_id: UUID) -> list[Population]:
    """The populations that an adoption collects from, by code."""
    found = (
        select(Population)
        .join(AdoptedPopulation, AdoptedPopulation.population_id == Population.id)
        .where(AdoptedPopulation.adoption_id == adoption_id)
    )
    return list(work.db.scalars(found.order_by(Population.code, Population.id)))


def held(work: Work, adoption_id: UUID) -> list[AdoptedPopulation]:
    """An adoption's hold on each of its populations, the oldest first."""
    found = select(AdoptedPopulation).where(AdoptedPopulation.adoption_id == adoption_id)
    found = found.execution_options(populate_existing=True)
    return list(work.db.scalars(found.order_by(AdoptedPopulation.since, AdoptedPopulation.id)))


def with_population(work: Work, *, site_id: UUID) -> list[UUID]:
    """The adoptions under way, as far as this seat sees them, that hold a population at a site."""
    found = (
        select(Adoption.id)
        .join(AdoptedPopulation, AdoptedPopulation.adoption_id == Adoption.id)
        .join(Population, Population.id == AdoptedPopulation.population_id)
        .where(Population.site_id == site_id, Adoption.state == AdoptionState.ACTIVE)
    )
    return list(work.db.scalars(found.distinct().order_by(Adoption.id)))


def history(work: Work, adoption_id: UUID) -> list[AuditEntry]:
    """What happened to an adoption, oldest first."""
    return audit.history_of(work, thing_kind=Adoption.__tablename__, thing_id=str(adoption_id))


def some(work: Work, adoption_ids: Sequence[UUID]) -> list[tuple[Adoption, str, str]]:
    """Several adoptions with the names of species and group. Raises NotFound unless all of them are there."""
    found = (
        select(Adoption, Taxon.canonical, Group.name)
        .join(Taxon, Taxon.id == Adoption.taxon_id)
        .join(Group, Group.id == Adoption.group_id)
        .where(Adoption.id.in_(adoption_ids))
        .order_by(Taxon.canonical, Group.name)
    )
    rows = [(adoption, species, group) for adoption, species, group in work.db.execute(found)]
    if len(rows) != len(set(adoption_ids)) or not rows:
        raise NotFound("adoptions")
    return rows


def groups_and_species(work: Work) -> tuple[list[tuple[UUID, str]], list[tuple[UUID, str]]]:
    """Groups and species that the adoptions of this seat are about, as (id, name), for filters."""
    groups = select(Group.id, Group.name).where(Group.id.in_(select(Adoption.group_id)))
    species = select(Taxon.id, Taxon.canonical).where(Taxon.id.in_(select(Adoption.taxon_id)))
    return (
        [(key, name) for key, name in work.db.execute(groups.order_by(Group.name))],
        [(key, name) for key, name in work.db.execute(species.order_by(Taxon.canonical))],
    )
