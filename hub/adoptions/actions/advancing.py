"""How far the work of an adoption has got: further and further, and back only when seed leaves the bank."""

from __future__ import annotations

from datetime import date
from uuid import UUID

from sqlalchemy import select

from hub.adoptions import queries
from hub.adoptions.actions.moving import move, taken, turn
from hub.adoptions.counting import counted_at, recount
from hub.adoptions.models import AdoptedPopulation, Adoption
from hub.adoptions.rules import BANKABLE, UNDER_WAY, AdoptionState, Stage, is_further
from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.work import Work
from hub.taxa.models import Season


def advance(work: Work, *, adoption_id: UUID, stage: Stage) -> Adoption:
    """Note that an adoption has reached a stage. One that is further, or not under way, stays as it is."""
    adoption = taken(work, adoption_id)
    if adoption.state in UNDER_WAY and is_further(stage, adoption.stage):
        put_at(work, adoption, stage)
    return adoption


def put_at(work: Work, adoption: Adoption, stage: Stage) -> None:
    """Bring an adoption to a stage, count it there and record it."""
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


def accession_population(
    work: Work, *, group_id: UUID, population_id: UUID, collected_on: date
) -> Adoption | None:
    """Seed of a population became an accession: its adoption is so far, and fulfilled with the last one held.

    Returns None for seed that no adoption of that season was after.
    """
    turn(work)
    hold = newest_hold(work, group_id, population_id, collected_on)
    if hold is None:
        return None
    hold.accessioned_at = hold.accessioned_at or work.now
    adoption = advance(work, adoption_id=hold.adoption_id, stage=Stage.ACCESSIONED)
    all_there = all(each.accessioned_at for each in queries.held(work, adoption.id))
    if all_there and adoption.state is AdoptionState.ACTIVE:
        move(work, adoption, AdoptionState.FULFILLED)
    return adoption


def bank_population(
    work: Work, *, group_id: UUID, population_id: UUID, collected_on: date, more: int
) -> Adoption | None:
    """An accession of a population was stored or sown (``more`` is 1), or is no longer kept (-1).

    An adoption is banked as long as one of its accessions is kept. This alone can lead a step back: what
    was used up or given up is not safe any more. Returns None as ``accession_population`` does.
    """
    turn(work)
    hold = newest_hold(work, group_id, population_id, collected_on)
    if hold is None:
        return None
    hold.banked = max(0, hold.banked + more)
    adoption = taken(work, hold.adoption_id)
    kept = any(each.banked for each in queries.held(work, adoption.id))
    stage = Stage.BANKED if kept else Stage.ACCESSIONED
    if adoption.state in BANKABLE and stage is not adoption.stage:
        put_at(work, adoption, stage)
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
