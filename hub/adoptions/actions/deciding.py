"""A curator says yes or no, pauses and resumes; a group gives back; what nobody worked on lapses."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any
from uuid import UUID
from zoneinfo import ZoneInfo

from sqlalchemy import Select, func, select

from hub.adoptions import letters, queries
from hub.adoptions.actions.moving import move, not_now, taken, turn
from hub.adoptions.models import AdoptedPopulation, Adoption
from hub.adoptions.rules import AdoptionState, Stage, lapses
from hub.db.work import Work
from hub.groups.models import Bank
from hub.groups.queries import get_group
from hub.groups.rules import GroupState
from hub.sites.models import Census, Permission, Population
from hub.taxa.models import Season
from hub.words import Refused, say

LAPSED = say("Nothing was noted by the day on which idle adoptions end.")


def accept(work: Work, *, adoption_id: UUID, reason: str = "") -> Adoption:
    """Say yes to a request; the group is told. Raises Refused."""
    adoption = taken(work, adoption_id)
    if get_group(work, adoption.group_id).state is not GroupState.ACTIVE:
        raise Refused(say("This group is not active, so it cannot adopt a species."))
    only_from(adoption, AdoptionState.REQUESTED)
    move(work, adoption, AdoptionState.ACTIVE, reason=reason)
    letters.accepted(work, adoption)
    return adoption


def decline(work: Work, *, adoption_id: UUID, reason: str) -> Adoption:
    """Say no to a request, with a reason that the group is told. Raises Refused."""
    adoption = move(work, taken(work, adoption_id), AdoptionState.DECLINED, reason=reason)
    letters.declined(work, adoption)
    return adoption


def accept_many(work: Work, *, adoption_ids: Iterable[UUID], reason: str = "") -> list[Adoption]:
    """Say yes to several requests, to all or to none of them."""
    return [accept(work, adoption_id=each, reason=reason) for each in adoption_ids]


def decline_many(work: Work, *, adoption_ids: Iterable[UUID], reason: str) -> list[Adoption]:
    """Say no to several requests for one reason, to all or to none of them."""
    return [decline(work, adoption_id=each, reason=reason) for each in adoption_ids]


def release(work: Work, *, adoption_id: UUID, reason: str = "") -> Adoption:
    """A group gives a species back to the list. Raises Refused."""
    return move(work, taken(work, adoption_id), AdoptionState.RELEASED, reason=reason)


def suspend(work: Work, *, adoption_id: UUID, reason: str) -> Adoption:
    """A curator pauses an adoption, with a reason that the group is told. Raises Refused."""
    adoption = move(work, taken(work, adoption_id), AdoptionState.SUSPENDED, reason=reason)
    letters.suspended(work, adoption)
    return adoption


def resume(work: Work, *, adoption_id: UUID, reason: str = "") -> Adoption:
    """A curator lets a paused adoption go on; the group is told. Raises Refused."""
    adoption = taken(work, adoption_id)
    only_from(adoption, AdoptionState.SUSPENDED)
    move(work, adoption, AdoptionState.ACTIVE, reason=reason)
    letters.resumed(work, adoption)
    return adoption


def fulfil(work: Work, *, adoption_id: UUID, reason: str = "") -> Adoption:
    """The group has done what it adopted the species for. Raises Refused."""
    return move(work, taken(work, adoption_id), AdoptionState.FULFILLED, reason=reason)


def only_from(adoption: Adoption, state: AdoptionState) -> None:
    """Two verbs lead to *active*: each may start from its own state alone."""
    if adoption.state is not state:
        raise not_now(adoption)


def lapse_due(work: Work) -> int:
    """Let every adoption lapse on which nobody did anything by its season's day; returns how many.

    Its groups are told. Run daily, across all tenants, each on its bank's own day; twice changes nothing.
    """
    turn(work)
    due = [row.id for row in work.db.execute(perhaps_idle()) if is_due(work, row)]
    for adoption_id in due:
        adoption = queries.get(work, adoption_id, locked=True)
        move(work, adoption, AdoptionState.LAPSED, reason=str(LAPSED))
        letters.lapsed(work, adoption)
    return len(due)


def is_due(work: Work, row: Any) -> bool:
    done = [day for day in (row.owner_asked_on, row.counted_on) if day]
    return lapses(
        today=work.now.astimezone(ZoneInfo(row.zone)).date(),
        lapses_on=row.lapses_on,
        state=row.state,
        stage=row.stage,
        since=row.asked_at.astimezone(ZoneInfo(row.zone)).date(),
        last_done=max(done, default=None),
    )


def perhaps_idle() -> Select[*tuple[Any, ...]]:
    """Adoptions that nobody may have begun on, with what decides whether they lapse."""
    owner_asked_on = (
        select(func.max(Permission.asked_on))
        .join(Population, Population.site_id == Permission.site_id)
        .where(Permission.asked_by_group_id == Adoption.group_id, Population.taxon_id == Adoption.taxon_id)
    )
    counted_on = (
        select(func.max(Census.counted_on))
        .join(AdoptedPopulation, AdoptedPopulation.population_id == Census.population_id)
        .where(AdoptedPopulation.adoption_id == Adoption.id)
    )
    return (
        select(
            Adoption.id,
            Adoption.state,
            Adoption.stage,
            Adoption.asked_at,
            Season.lapses_on,
            Bank.zone,
            owner_asked_on.correlate(Adoption).scalar_subquery().label("owner_asked_on"),
            counted_on.correlate(Adoption).scalar_subquery().label("counted_on"),
        )
        .join(Season, Season.id == Adoption.season_id)
        .join(Bank, Bank.id == Adoption.bank_id)
        .where(Adoption.state == AdoptionState.ACTIVE, Adoption.stage == Stage.ADOPTED)
        .order_by(Adoption.id)
    )
