"""Populations: added inside their site, described, verified, retired."""

from __future__ import annotations

from itertools import count
from typing import Any
from uuid import UUID

from sqlalchemy import select

from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.work import Work
from hub.groups.queries import get_group
from hub.science.distance import Position
from hub.sites import queries
from hub.sites.actions.noted import changes, check_version
from hub.sites.models import Population
from hub.taxa.models import Taxon
from hub.words import Refused, say

UNNOTED = frozenset({"latitude", "longitude"})


def add_population(
    work: Work,
    *,
    site_id: UUID,
    taxon_id: UUID,
    latitude: float,
    longitude: float,
    uncertainty_m: float,
    code: str = "",
    **more: Any,
) -> Population:
    """Add the plants of one taxon at a site; without a ``code`` it gets the next one free.

    ``more`` are label, origin, trend, threat, threat_note and years_collected_before, as known. Raises
    Refused, with the distance, for a position outside the site.
    """
    site, taxon = queries.get_site(work, site_id), work.db.get(Taxon, taxon_id)
    if taxon is None:
        raise Refused(say("Please choose one of the species."), field="taxon_id")
    position = Position(latitude=latitude, longitude=longitude)
    queries.check_inside_site(site, position, uncertainty_m=uncertainty_m)
    if code:
        check_code(work, code)
    tidy_years(work, more)
    population = Population(
        bank_id=site.bank_id,
        site_id=site.id,
        taxon_id=taxon_id,
        code=code or next_code(work, taxon),
        latitude=latitude,
        longitude=longitude,
        uncertainty_m=uncertainty_m,
        **{"label": "", **more},
    )
    work.db.add(population)
    work.db.flush()
    after = {"code": population.code, "taxon_id": str(taxon_id)}
    record(work, Event.POPULATION_ADDED, population, after=after)
    return population


def tidy_years(work: Work, fields: dict[str, Any]) -> None:
    """Earlier years in order, each once. Raises Refused for a year that has not come."""
    years = fields.get("years_collected_before")
    if years is None:
        return
    if max(years, default=0) > work.today.year:
        raise Refused(say("This year is still to come."), field="years_collected_before")
    fields["years_collected_before"] = sorted(set(years))


def check_code(work: Work, code: str) -> None:
    """Codes stand on labels, so each bank gives one only once; another group's stays unknown until stored."""
    if work.db.scalars(select(Population.id).where(Population.code == code)).first():
        raise Refused(say("Another population has this code already."), field="code")


def next_code(work: Work, taxon: Taxon) -> str:
    """Such as ``SIL-ACA 04``; a group's own begin with its code, for it cannot see which others are taken."""
    start = "-".join(word[:3].upper() for word in taxon.canonical.split()[:2])
    if work.scope.own_group_id:
        start = f"{start} {get_group(work, work.scope.own_group_id).code}"
    taken = set(work.db.scalars(select(Population.code).where(Population.code.startswith(start))))
    return next(code for n in count(1) if (code := f"{start} {n:02}") not in taken)


def change_population(
    work: Work, *, population_id: UUID, version: int | None = None, **fields: Any
) -> Population:
    """Change what is given of a population. Its taxon stays: other plants are another population."""
    population = queries.get_population(work, population_id, locked=True)
    check_version(population, version)
    if fields.get("code", population.code) != population.code:
        check_code(work, fields["code"])
    tidy_years(work, fields)
    with work.db.no_autoflush:
        before, after = changes(population, fields, unnoted=UNNOTED)
        if not after:
            return population
        position = Position(latitude=population.latitude, longitude=population.longitude)
        site = queries.get_site(work, population.site_id)
        queries.check_inside_site(site, position, uncertainty_m=population.uncertainty_m)
    record(work, Event.POPULATION_CHANGED, population, before=before, after=after)
    return population


def verify_identity(work: Work, *, population_id: UUID, how: str) -> Population:
    """Somebody competent is sure what grows here; ``how`` says who and from what."""
    return set_noted(work, population_id, "identity_verified", True, how)


def retire_population(work: Work, *, population_id: UUID, reason: str) -> Population:
    """The plants are gone, or were never there: no more work starts here. What was done stays."""
    return set_noted(work, population_id, "retired_at", work.now, reason)


def bring_back_population(work: Work, *, population_id: UUID, reason: str) -> Population:
    """Undo a retirement."""
    return set_noted(work, population_id, "retired_at", None, reason)


def set_noted(work: Work, population_id: UUID, name: str, value: Any, reason: str) -> Population:
    population = queries.get_population(work, population_id, locked=True)
    if bool(getattr(population, name)) is bool(value):
        raise Refused(say("This was noted already."))
    before, after = changes(population, {name: value})
    record(work, Event.POPULATION_CHANGED, population, before=before, after=after, reason=reason)
    return population
