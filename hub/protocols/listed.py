"""Reads for the pages about sheets: lists, what waits for a first sheet, and what stands around one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any
from uuid import UUID

from sqlalchemy import Select, and_, func, or_, select
from sqlalchemy.orm import defer

from hub.adoptions.models import AdoptedPopulation, Adoption
from hub.adoptions.rules import AdoptionState
from hub.db.work import Work
from hub.groups.models import Bank, Group
from hub.protocols.models import IssuedSheet, RuleOverride, SheetState
from hub.protocols.sheet import Status
from hub.sites.models import Population, Site
from hub.taxa.models import Season, Taxon
from hub.taxa.queries import matching

ORDERS: dict[str, Sequence[Any]] = {
    "newest": (Season.year.desc(), IssuedSheet.issued_at.desc(), IssuedSheet.id),
    "oldest": (IssuedSheet.issued_at, IssuedSheet.id),
    "number": (IssuedSheet.number, IssuedSheet.id),
    "number-down": (IssuedSheet.number.desc(), IssuedSheet.id),
    "species": (Taxon.canonical, IssuedSheet.id),
    "species-down": (Taxon.canonical.desc(), IssuedSheet.id),
    "group": (func.lower(Group.name), IssuedSheet.id),
    "group-down": (func.lower(Group.name).desc(), IssuedSheet.id),
}
OVERRIDE_ORDERS: dict[str, Sequence[Any]] = {
    "newest": (RuleOverride.made_at.desc(), RuleOverride.id),
    "ends": (RuleOverride.ends_on, RuleOverride.id),
    "ends-down": (RuleOverride.ends_on.desc(), RuleOverride.id),
    "rule": (RuleOverride.rule_id, RuleOverride.id),
    "rule-down": (RuleOverride.rule_id.desc(), RuleOverride.id),
}


def sheets(
    work: Work,
    *,
    search: str | None = None,
    state: SheetState | None = None,
    says: Status | None = None,
    taxon: UUID | None = None,
    season: int | None = None,
) -> Select[Any]:
    """The sheets that this seat may see, without their bodies: with taxon, group, population, and the year
    and last day of their season."""
    found: Any = (
        select(IssuedSheet, Taxon, Group.name, Population.code, Season.year, Season.closes_on)
        .options(defer(IssuedSheet.body), defer(IssuedSheet.case))
        .join(Taxon, Taxon.id == IssuedSheet.taxon_id)
        .join(Group, Group.id == IssuedSheet.group_id)
        .join(Season, Season.id == IssuedSheet.season_id)
        .outerjoin(Population, Population.id == IssuedSheet.population_id)
    )
    if search:
        texts = (IssuedSheet.number, Group.name, Population.code)
        found = found.where(
            or_(matching(search), *(text.icontains(search, autoescape=True) for text in texts))
        )
    if season:
        found = found.where(Season.year == season)
    wanted = {"state": state, "status": says, "taxon_id": taxon}
    return found.where(*(getattr(IssuedSheet, name) == value for name, value in wanted.items() if value))


def species_with_sheets(work: Work) -> Sequence[Any]:
    """Id and name of every taxon with a sheet that this seat may see."""
    drawn = select(IssuedSheet.taxon_id)
    return work.db.execute(
        select(Taxon.id, Taxon.canonical).where(Taxon.id.in_(drawn)).order_by(Taxon.canonical)
    ).all()


def years_with_sheets(work: Work) -> Sequence[int]:
    """The years of every season with a sheet that this seat may see, the newest first."""
    drawn = select(IssuedSheet.season_id)
    return work.db.scalars(
        select(Season.year).where(Season.id.in_(drawn)).distinct().order_by(Season.year.desc())
    ).all()


def without_sheet(work: Work, most: int = 20) -> Sequence[Any]:
    """Populations that active adoptions hold and that have no current sheet: adoption, population, names."""
    holds = and_(
        IssuedSheet.adoption_id == AdoptedPopulation.adoption_id,
        IssuedSheet.population_id == AdoptedPopulation.population_id,
        IssuedSheet.state == SheetState.CURRENT,
    )
    found = (
        select(Adoption.id, Population.id, Population.code, Taxon.canonical, Group.name)
        .join(AdoptedPopulation, AdoptedPopulation.adoption_id == Adoption.id)
        .join(Population, Population.id == AdoptedPopulation.population_id)
        .join(Taxon, Taxon.id == Adoption.taxon_id)
        .join(Group, Group.id == Adoption.group_id)
        .join(Season, Season.id == Adoption.season_id)
        .outerjoin(IssuedSheet, holds)
        .where(
            Adoption.state == AdoptionState.ACTIVE,
            Season.closes_on >= work.today,
            IssuedSheet.id.is_(None),
            Population.retired_at.is_(None),
        )
    )
    return work.db.execute(found.order_by(AdoptedPopulation.since, Population.id).limit(most)).all()


@dataclass(frozen=True)
class Around:
    """The rows that a sheet names; a group no longer let in on a site reads its old sheets without it."""

    taxon: Taxon
    group: Group
    bank: Bank
    population: Population | None
    site: Site | None


def around(work: Work, issued: IssuedSheet) -> Around:
    """Everything that a sheet names, in one reading."""
    found = (
        select(Taxon, Group, Bank, Population, Site)
        .select_from(Taxon)
        .join(Group, Group.id == issued.group_id)
        .join(Bank, Bank.id == issued.bank_id)
        .outerjoin(Population, Population.id == issued.population_id)
        .outerjoin(Site, Site.id == Population.site_id)
        .where(Taxon.id == issued.taxon_id)
    )
    return Around(*work.db.execute(found).one())


def line_of_sheets(work: Work, issued: IssuedSheet) -> list[IssuedSheet]:
    """Every sheet of the same adoption at the same population, newest first, without their bodies."""
    found = select(IssuedSheet).options(defer(IssuedSheet.body), defer(IssuedSheet.case))
    same = (
        IssuedSheet.adoption_id == issued.adoption_id,
        IssuedSheet.population_id == issued.population_id,
    )
    return list(work.db.scalars(found.where(*same).order_by(IssuedSheet.issued_at.desc(), IssuedSheet.id)))


def replaced_by(work: Work, issued: IssuedSheet) -> IssuedSheet | None:
    """The sheet that took this one’s place."""
    if issued.replaced_by_id is None:
        return None
    found = select(IssuedSheet).where(IssuedSheet.id == issued.replaced_by_id)
    return work.db.scalars(found).one_or_none()


def overrides(
    work: Work, *, search: str | None = None, holds: bool | None = None
) -> Select[RuleOverride, str, str]:
    """The bank’s changes of rules, each with its species and population where it names one."""
    found = (
        select(RuleOverride, Taxon.canonical, Population.code)
        .outerjoin(Taxon, Taxon.id == RuleOverride.taxon_id)
        .outerjoin(Population, Population.id == RuleOverride.population_id)
    )
    if search:
        texts = (RuleOverride.rule_id, RuleOverride.reason, Taxon.canonical, Population.code)
        found = found.where(or_(*(text.icontains(search, autoescape=True) for text in texts)))
    if holds:
        found = found.where(RuleOverride.ended_at.is_(None), RuleOverride.ends_on >= work.today)
    return found


def species_with_populations(work: Work) -> Sequence[Any]:
    """Id and name of every taxon that grows where this seat may look."""
    grown = select(Population.taxon_id).where(Population.retired_at.is_(None))
    return work.db.execute(
        select(Taxon.id, Taxon.canonical).where(Taxon.id.in_(grown)).order_by(Taxon.canonical)
    ).all()


def populations_by_name(work: Work) -> Sequence[Any]:
    """Id and code of every population that this seat may see and that is not retired."""
    found = select(Population.id, Population.code).where(Population.retired_at.is_(None))
    return work.db.execute(found.order_by(Population.code, Population.id)).all()
