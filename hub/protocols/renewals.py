"""The renewal round: sheets overtaken by a change are drawn up again, and their groups are told.

It works across groups, so it runs by itself after the change, never inside somebody's own work. Each sheet is
renewed in a transaction of its own, and any number of processes may do the round at once: a sheet that
another has just renewed says nothing new and is left alone.
"""

from __future__ import annotations

import logging
from datetime import datetime
from uuid import UUID

from sqlalchemy import ColumnElement, select, update

from hub.accounts.letters import address, post
from hub.adoptions import queries as adoptions
from hub.adoptions.models import Adoption
from hub.adoptions.rules import AdoptionState
from hub.db.work import House, Work
from hub.groups.models import Bank, Group
from hub.protocols import queries
from hub.protocols.actions import drawn_up, end, put_in_force, said_by
from hub.protocols.models import IssuedSheet, SheetRenewal, SheetState
from hub.protocols.sheet import Status
from hub.protocols.sheet_words import STATUS
from hub.rights.scope import Scope
from hub.sites import queries as sites
from hub.sites.models import Population
from hub.taxa.queries import get_season
from hub.words import Words, say

ROUND = 100
MOST_TRIES = 3
log = logging.getLogger(__name__)
RENEWAL = Scope.everyone(because="renewing sheets after a change")


def renew_due(house: House, *, now: datetime | None = None) -> int:
    """Renew every sheet that a noted change has overtaken, and return how many were replaced."""
    now = now or house.now()
    with house.work(RENEWAL, now=now, reads_only=True) as work:
        due = work.db.scalars(
            select(SheetRenewal).where(SheetRenewal.done_at.is_(None)).order_by(SheetRenewal.at).limit(ROUND)
        ).all()
        touched = {issued.id: note for note in due for issued in queries.current_where(work, *about(note))}
        zones = zones_of(work, list(touched))
    outcomes = {
        sheet_id: tried(house, sheet_id, note, now, zones[sheet_id]) for sheet_id, note in touched.items()
    }
    failed = {touched[sheet_id].id for sheet_id, renewed in outcomes.items() if renewed is None}
    close(house, [note.id for note in due if note.id not in failed], failed, now)
    return sum(renewed is True for renewed in outcomes.values())


def tried(house: House, sheet_id: UUID, note: SheetRenewal, now: datetime, zone: str) -> bool | None:
    """Whether the sheet was replaced; ``None`` when that failed, which keeps no other sheet back.

    A sheet that fails again and again is taken back: nobody may go on collecting by what no longer holds.
    """
    try:
        return renew(house, sheet_id, Words.from_json(note.reason), now, zone)
    except Exception:  # whatever it is, the other sheets must not wait for it
        log.exception("Sheet %s could not be drawn up again", sheet_id)
    if note.tries + 1 < MOST_TRIES:
        return None
    return give_up(house, sheet_id, now, zone)


def give_up(house: House, sheet_id: UUID, now: datetime, zone: str) -> bool:
    with house.work(RENEWAL, now=now, zone=zone) as work:
        issued = queries.get_sheet(work, sheet_id, locked=True)
        if issued.state is SheetState.CURRENT:
            end(
                work,
                issued,
                SheetState.WITHDRAWN,
                reason=str(say("It could not be drawn up again after a change.")),
            )
            tell_group(work, issued, [say("It could not be drawn up again after a change. Ask your bank.")])
            work.db.commit()
    return False


def close(house: House, done: list[UUID], failed: set[UUID], now: datetime) -> None:
    """What is done is done; what failed stays open, and is counted."""
    with house.work(RENEWAL, now=now) as work:
        work.db.execute(update(SheetRenewal).where(SheetRenewal.id.in_(done)).values(done_at=now))
        again = update(SheetRenewal).where(SheetRenewal.id.in_(failed))
        work.db.execute(again.values(tries=SheetRenewal.tries + 1))
        work.db.commit()


def about(note: SheetRenewal) -> list[ColumnElement[bool]]:
    """Which sheets a noted change touches: those that answer to every key it names."""
    conditions: list[ColumnElement[bool]] = []
    if note.population_id:
        conditions.append(IssuedSheet.population_id == note.population_id)
    if note.site_id:
        here = select(Population.id).where(Population.site_id == note.site_id)
        conditions.append(IssuedSheet.population_id.in_(here))
    if note.taxon_id:
        conditions.append(IssuedSheet.taxon_id == note.taxon_id)
    if note.bank_id:
        conditions.append(IssuedSheet.bank_id == note.bank_id)
    return conditions


def zones_of(work: Work, sheet_ids: list[UUID]) -> dict[UUID, str]:
    """The time zone of each sheet's bank: the day of a sheet is the bank's day."""
    rows = select(IssuedSheet.id, Bank.zone).join(Bank, Bank.id == IssuedSheet.bank_id)
    found = work.db.execute(rows.where(IssuedSheet.id.in_(sheet_ids)))
    return {row.id: row.zone for row in found}


def renew(house: House, sheet_id: UUID, reason: Words, now: datetime, zone: str) -> bool:
    """Draw one sheet up again; replace it when it would say something else.

    The population is locked before the sheet, as in issuing, so that the two never wait for each other.
    """
    with house.work(RENEWAL, now=now, zone=zone) as work:
        population = sites.get_population(work, population_of(work, sheet_id), locked=True)
        issued = queries.get_sheet(work, sheet_id, locked=True)
        adoption = adoptions.get(work, issued.adoption_id)
        if issued.state is not SheetState.CURRENT or adoption.state is not AdoptionState.ACTIVE:
            return False
        renewed = replaced(work, issued, adoption, population, reason)
        if renewed:
            work.db.commit()
        return renewed


def population_of(work: Work, sheet_id: UUID) -> UUID:
    return work.db.scalars(select(IssuedSheet.population_id).where(IssuedSheet.id == sheet_id)).one()


def replaced(
    work: Work, issued: IssuedSheet, adoption: Adoption, population: Population, reason: Words
) -> bool:
    """Put a new sheet in the old one’s place, or take it back where nobody may collect any more."""
    if population.retired_at is not None:
        end(work, issued, SheetState.WITHDRAWN, reason=str(say("The population is retired.")))
        tell_group(work, issued, [say("Nobody collects from this population any more.")])
        return True
    if get_season(work, adoption.season_id).closes_on < work.today:
        end(work, issued, SheetState.WITHDRAWN, reason=str(say("The season is over.")))
        tell_group(work, issued, [say("The season is over: nobody collects any more.")])
        return True
    sheet = drawn_up(work, adoption, population)
    if said_by(sheet) == issued.digest:
        return False
    fresh = put_in_force(work, adoption, population, sheet, issued, str(reason))
    tell_group(work, issued, [reason, *about_new(work, fresh, sheet.status)])
    return True


def about_new(work: Work, fresh: IssuedSheet, status: Status) -> list[Words]:
    """The new sheet, whether it may be used, and where it is."""
    return [
        say("The new sheet is {number}. It says: {status}.", number=fresh.number, status=STATUS[status]),
        say("You find it here: {address}", address=address(work, f"/sheets/{fresh.id}")),
    ]


def tell_group(work: Work, old: IssuedSheet, news: list[Words]) -> None:
    """A letter to the group: the old sheet holds no longer, and why."""
    group = work.db.get_one(Group, old.group_id)
    subject = say("Your protocol sheet {number} holds no longer", number=old.number)
    destroy = say("Please destroy printed copies of sheet {number}.", number=old.number)
    post(work, to=group.contact_email, subject=subject, body=[*news, destroy])
