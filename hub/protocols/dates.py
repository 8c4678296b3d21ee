"""Papers begin and end by the calendar, without anybody doing anything; the sheets must follow all the same.

Each turn of a paper is noted once, when its day has come where its bank is. Looking back over some days makes
up for a hub that stood still; a sheet that says nothing new is left alone.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date, timedelta
from typing import Any
from uuid import UUID
from zoneinfo import ZoneInfo

from sqlalchemy import delete, select

from hub.db.work import Work
from hub.groups.models import Bank
from hub.protocols.models import IssuedSheet, RuleOverride, SheetRenewal, SheetState
from hub.sites.models import Permission, Permit, Salvage
from hub.taxa.models import Season
from hub.words import Words, say

LOOK_BACK = timedelta(days=7)
A_DAY = timedelta(days=1)

BEGUN_OR_ENDED = say("A paper has begun to hold, or has run out.")
RULE_BACK = say("A change of a rule has run out.")
SEASON_OVER = say("The season is over.")
LOSS_OVER = say("The day by which the plants were to be lost is over.")


@dataclass(frozen=True)
class Turn:
    """The first day on which something stands otherwise than before, and which sheets that touches."""

    thing: UUID
    bank_id: UUID
    day: date
    reason: Words
    stays: bool = False  # what still rests on it is behind, however long ago it turned
    changed: dict[str, Any] = field(default_factory=dict)

    @property
    def key(self) -> str:
        return f"{self.thing} {self.day}"


def note_dates(work: Work) -> int:
    """Note a renewal for everything that turned lately by its date, once each; returns how many."""
    work.db.execute(delete(SheetRenewal).where(SheetRenewal.done_at < work.now - LOOK_BACK - 2 * A_DAY))
    zones = {bank.id: ZoneInfo(bank.zone) for bank in work.db.scalars(select(Bank))}
    known = set(work.db.scalars(select(SheetRenewal.turn).where(SheetRenewal.turn.is_not(None))))
    notes = [
        SheetRenewal(at=work.now, turn=turn.key, reason=turn.reason.as_json(), **turn.changed)
        for turn in (*papers(work), *changes_of_rules(work), *seasons(work), *salvages(work))
        if turn.key not in known and is_due(turn, work.now.astimezone(zones[turn.bank_id]).date())
    ]
    work.db.add_all(notes)
    return len(notes)


def is_due(turn: Turn, today: date) -> bool:
    return turn.day <= today and (turn.stays or today - LOOK_BACK <= turn.day)


def papers(work: Work) -> Iterator[Turn]:
    first, last = span(work)
    for permission in work.db.scalars(select(Permission).where(Permission.starts_on.between(first, last))):
        if permission.starts_on:
            where = {"site_id": permission.site_id}
            yield Turn(permission.id, permission.bank_id, permission.starts_on, BEGUN_OR_ENDED, changed=where)
    permits = select(Permit).where(
        Permit.starts_on.between(first, last) | Permit.ends_on.between(first, last)
    )
    for permit in work.db.scalars(permits):
        keys = {"bank_id": permit.bank_id, "site_id": permit.site_id, "taxon_id": permit.taxon_id}
        for day in (permit.starts_on, permit.ends_on + A_DAY):
            yield Turn(permit.id, permit.bank_id, day, BEGUN_OR_ENDED, changed=keys)


def changes_of_rules(work: Work) -> Iterator[Turn]:
    found = select(RuleOverride).where(
        RuleOverride.ended_at.is_(None), RuleOverride.ends_on.between(*span(work))
    )
    for change in work.db.scalars(found):
        keys = {
            "bank_id": change.bank_id,
            "taxon_id": change.taxon_id,
            "population_id": change.population_id,
        }
        yield Turn(change.id, change.bank_id, change.ends_on + A_DAY, RULE_BACK, changed=keys)


def seasons(work: Work) -> Iterator[Turn]:
    """A sheet holds no longer than its season, also where the hub stood still when that closed."""
    held = select(IssuedSheet.season_id).where(IssuedSheet.state == SheetState.CURRENT)
    over = select(Season).where(Season.id.in_(held), Season.closes_on <= span(work)[1])
    for season in work.db.scalars(over):
        bank = {"bank_id": season.bank_id}
        yield Turn(season.id, season.bank_id, season.closes_on + A_DAY, SEASON_OVER, stays=True, changed=bank)


def salvages(work: Work) -> Iterator[Turn]:
    """When the day of the loss is over the usual limits hold again."""
    for case in work.db.scalars(select(Salvage).where(Salvage.loss_expected_on.between(*span(work)))):
        if case.loss_expected_on:
            where = {"population_id": case.population_id}
            yield Turn(case.id, case.bank_id, case.loss_expected_on + A_DAY, LOSS_OVER, changed=where)


def span(work: Work) -> tuple[date, date]:
    """A first sieve, wide enough for every zone on earth."""
    return work.now.date() - LOOK_BACK - 2 * A_DAY, work.now.date() + A_DAY
