"""How far the work of an adoption has got: further and further, never back."""

from __future__ import annotations

from datetime import date
from uuid import UUID

from sqlalchemy import select

from hub.adoptions import queries
from hub.adoptions.actions.moving import move, taken, turn
from hub.adoptions.counting import counted_at, recount
from hub.adoptions.models import AdoptedPopulation, Adoption
from hub.adoptions.rules import UNDER_WAY, AdoptionState, Stage, is_further
from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.work import Work
from hub.taxa.models import Season


def advance(work: Work, *, adoption_id: UUID, stage: Stage) -> Adoption:
    """Note that an adoption has reached a stage. One that is further, or not under way, stays as it is."""
    adoption = taken(work, adoption_id)
    if adoption.state not in UNDER_WAY or not is_further(stage, adoption.stage):
        return adoption
    before, counted = adoption.stage, counted_at(adoption)
    adoption.stage, adoption.moved_at = stage, work.now
    recount(work, adoption, counted)
    record(
        work,
        Event.ADOPTION_ADVANCED,
        adoption,
        before={"stage": str(before)},
        after={"stage": str(stage)},
    )
    return adoption


def bank_population(
    work: Work, *, group_id: UUID, population_id: UUID, collected_on: date
) -> Adoption | None:
    """Seed of a population became an accession: its adoption is banked, and fulfilled with the last one held.

    Returns None for seed that no adoption of that season was after.
    """
    turn(work)
    hold = newest_hold(work, group_id, population_id, collected_on)
    if hold is None:
        return None
    hold.banked_at = hold.banked_at or work.now
    adoption = advance(work, adoption_id=hold.adoption_id, stage=Stage.BANKED)
    all_banked = all(each.banked_at for each in queries.held(work, adoption.id))
    if all_banked and adoption.state is AdoptionState.ACTIVE:
        move(work, adoption, AdoptionState.FULFILLED)
    return adoption


def newest_hold(
    work: Work, group_id: UUID, population_id: UUID, collected_on: date
) -> AdoptedPopulation | None:
    """The group's hold on a population, in the last season that had opened by the day of collecting."""
    found = (
        select(AdoptedPopulation)
        .join(Adoption, Adoption.id == AdoptedPopulation.adoption_id)
        .join(Season, Season.id == Adoption.season_id)
        .where(
            AdoptedPopulation.group_id == group_id,
            AdoptedPopulation.population_id == population_id,
            Season.opens_on <= collected_on,
        )
        .order_by(Season.opens_on.desc(), AdoptedPopulation.since.desc())
        .limit(1)
    )
    return work.db.scalars(found).first()
