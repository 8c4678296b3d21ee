"""Which populations an adoption collects from."""

from __future__ import annotations

from uuid import UUID

from sqlalchemy import select
from sqlalchemy.exc import IntegrityError

from hub.adoptions.actions.advancing import advance
from hub.adoptions.actions.moving import not_now, taken
from hub.adoptions.models import AdoptedPopulation, Adoption
from hub.adoptions.rules import HOLDING, AdoptionState, Stage, sole_key
from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.work import Work
from hub.groups.queries import there
from hub.sites import queries as sites
from hub.sites.actions import share_site
from hub.sites.models import Population
from hub.sites.rules import PermissionState
from hub.taxa import queries as taxa
from hub.words import Refused, say

HELD = say(
    "Somebody else looks after this population this season. Plants as rare as these are left to one group."
)


def hold_population(work: Work, *, adoption_id: UUID, population_id: UUID) -> AdoptedPopulation:
    """Let an adoption collect from a population, and its group see the site. Raises Refused.

    Holding what is held already changes nothing.
    """
    adoption = taken(work, adoption_id)
    population = sites.get_population(work, population_id)
    found = find_hold(work, adoption, population_id)
    if found is not None:
        return found
    check_fits(adoption, population)
    hold = held_alone(work, adoption, population)
    if not sites.is_let_in(work, site_id=population.site_id, group_id=adoption.group_id):
        share_site(work, site_id=population.site_id, group_id=adoption.group_id)
    record(work, Event.POPULATION_HELD, adoption, after={"population": population.code})
    if owner_agreed(work, population):
        advance(work, adoption_id=adoption.id, stage=Stage.PERMITTED)
    return hold


def owner_agreed(work: Work, population: Population) -> bool:
    """Whether the owner has said yes for this season, be it from a day still to come."""
    newest = sites.newest_permission(work, population.site_id)
    if newest is None or newest.state is not PermissionState.GRANTED:
        return False
    return newest.ends_on is None or work.today <= newest.ends_on


def find_hold(work: Work, adoption: Adoption, population_id: UUID) -> AdoptedPopulation | None:
    found = select(AdoptedPopulation).where(
        AdoptedPopulation.adoption_id == adoption.id, AdoptedPopulation.population_id == population_id
    )
    return work.db.scalars(found).one_or_none()


def check_fits(adoption: Adoption, population: Population) -> None:
    if adoption.state is not AdoptionState.ACTIVE:
        raise not_now(adoption)
    if population.taxon_id != adoption.taxon_id:
        raise Refused(say("This is a population of another species."), field="population_id")
    if population.retired_at is not None:
        raise Refused(say("This population is retired."), field="population_id")


def held_alone(work: Work, adoption: Adoption, population: Population) -> AdoptedPopulation:
    """Store the hold. Of a rare plant the database itself refuses a second holder, whoever that is.

    The asking group must not learn who holds it, and cannot read it: only the unique key knows.
    """
    care = taxa.get(work, adoption.taxon_id).care_class
    hold = AdoptedPopulation(
        group_id=adoption.group_id,
        bank_id=adoption.bank_id,
        adoption_id=adoption.id,
        population_id=population.id,
        sole_key=sole_key(care, adoption.season_id, population.id),
        since=work.now,
    )
    try:
        with work.db.begin_nested():
            work.db.add(hold)
            work.db.flush()
    except IntegrityError:
        raise Refused(HELD, field="population_id") from None
    return hold


def keep_sole(work: Work, *, taxon_id: UUID) -> None:
    """Bring the sole keys of a species in line with its care class, for the holds that this seat may see.

    Where it has become rare the longest hold on each population gets the key, and nobody joins from then on;
    those who share it already are left to the curator. Where it is rare no more, everybody may join.
    """
    care, seen = taxa.get(work, taxon_id).care_class, set()
    for hold, season_id in holds_of_species(work, taxon_id):
        key = sole_key(care, season_id, hold.population_id)
        hold.sole_key = None if key in seen else key
        seen.add(key)


def holds_of_species(work: Work, taxon_id: UUID) -> list[tuple[AdoptedPopulation, UUID]]:
    """Every claim that stands on a population of a species, the oldest first, with its season."""
    found = (
        select(AdoptedPopulation, Adoption.season_id)
        .join(Adoption, Adoption.id == AdoptedPopulation.adoption_id)
        .where(Adoption.taxon_id == taxon_id, Adoption.state.in_(HOLDING))
        .order_by(AdoptedPopulation.since, AdoptedPopulation.id)
    )
    return [(hold, season_id) for hold, season_id in work.db.execute(found)]


def let_go_population(work: Work, *, adoption_id: UUID, population_id: UUID) -> None:
    """An adoption lets a population go. Raises NotFound; Refused once seed of it is accessioned."""
    adoption = taken(work, adoption_id)
    hold = there(find_hold(work, adoption, population_id), population_id)
    if hold.accessioned_at is not None:
        raise Refused(say("Seed of this population is in the bank, so it stays with this adoption."))
    population = sites.get_population(work, population_id)
    work.db.delete(hold)
    work.db.flush()  # whoever listens must find it gone
    record(work, Event.POPULATION_LET_GO, adoption, before={"population": population.code})
