"""Papers begin and end by the calendar, without anybody doing anything; the sheets must follow all the same.

Looking back over some days makes up for a hub that stood still; a sheet that says nothing new is left alone.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from typing import Any

from sqlalchemy import delete, select

from hub.db.work import Work
from hub.protocols.models import RuleOverride, SheetRenewal
from hub.sites.models import Permission, Permit, Salvage
from hub.taxa.models import Season
from hub.words import Words, say

LOOK_BACK = timedelta(days=7)
A_DAY = timedelta(days=1)  # somewhere on earth it is tomorrow already

BEGUN_OR_ENDED = say("A paper has begun to hold, or has run out.")
RULE_BACK = say("A change of a rule has run out.")
SEASON_OVER = say("The season is over.")
LOSS_OVER = say("The day by which the plants were to be lost is over.")


def note_dates(work: Work) -> int:
    """Note a renewal for everything that began or ended lately by its date; returns how many."""
    old = SheetRenewal.done_at < work.now - LOOK_BACK
    work.db.execute(delete(SheetRenewal).where(old))
    notes = [*papers(work), *changes_of_rules(work), *seasons(work), *salvages(work)]
    work.db.add_all(notes)
    return len(notes)


def papers(work: Work) -> Iterator[SheetRenewal]:
    first, last = span(work)
    permissions = select(Permission).where(Permission.starts_on.between(first, last))
    for permission in work.db.scalars(permissions):
        yield note(work, BEGUN_OR_ENDED, site_id=permission.site_id)
    permits = select(Permit).where(
        Permit.starts_on.between(first, last) | Permit.ends_on.between(first, last)
    )
    for permit in work.db.scalars(permits):
        keys = {"bank_id": permit.bank_id, "site_id": permit.site_id, "taxon_id": permit.taxon_id}
        yield note(work, BEGUN_OR_ENDED, **keys)


def changes_of_rules(work: Work) -> Iterator[SheetRenewal]:
    found = select(RuleOverride).where(
        RuleOverride.ended_at.is_(None), RuleOverride.ends_on.between(*span(work))
    )
    for change in work.db.scalars(found):
        keys = {"taxon_id": change.taxon_id, "population_id": change.population_id}
        yield note(work, RULE_BACK, bank_id=change.bank_id, **keys)


def seasons(work: Work) -> Iterator[SheetRenewal]:
    """A sheet holds no longer than its season."""
    for season in work.db.scalars(select(Season).where(Season.closes_on.between(*span(work)))):
        yield note(work, SEASON_OVER, bank_id=season.bank_id)


def salvages(work: Work) -> Iterator[SheetRenewal]:
    """When the day of the loss is over the usual limits hold again."""
    for case in work.db.scalars(select(Salvage).where(Salvage.loss_expected_on.between(*span(work)))):
        yield note(work, LOSS_OVER, population_id=case.population_id)


def span(work: Work) -> tuple[date, date]:
    return work.today - LOOK_BACK, work.today + A_DAY


def note(work: Work, reason: Words, **changed: Any) -> SheetRenewal:
    return SheetRenewal(at=work.now, reason=reason.as_json(), **changed)
