"""Papers begin and end by the calendar, without anybody doing anything; the sheets must follow all the same.

Looking back over some days makes up for a hub that stood still; a sheet that says nothing new is left alone.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from typing import Any

from sqlalchemy import select

from hub.db.work import Work
from hub.protocols.facts import SIGN_OFF_LASTS
from hub.protocols.models import RuleOverride, SheetRenewal, SignOffRecord
from hub.sites.models import Permission, Permit
from hub.words import Words, say

LOOK_BACK = timedelta(days=7)
A_DAY = timedelta(days=1)  # somewhere on earth it is tomorrow already

BEGUN_OR_ENDED = say("A paper has begun to hold, or has run out.")
RULE_BACK = say("A change of a rule has run out.")
CONSENT_OUT = say("A curator’s consent has run out.")


def note_dates(work: Work) -> int:
    """Note a renewal for everything that began or ended lately by its date; returns how many."""
    notes = [*papers(work), *changes_of_rules(work), *consents(work)]
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


def consents(work: Work) -> Iterator[SheetRenewal]:
    first, last = (work.now - SIGN_OFF_LASTS - days for days in (LOOK_BACK, timedelta(0)))
    found = select(SignOffRecord).where(
        SignOffRecord.ended_at.is_(None), SignOffRecord.at.between(first, last)
    )
    for consent in work.db.scalars(found):
        yield note(work, CONSENT_OUT, population_id=consent.population_id)


def span(work: Work) -> tuple[date, date]:
    return work.today - LOOK_BACK, work.today + A_DAY


def note(work: Work, reason: Words, **changed: Any) -> SheetRenewal:
    return SheetRenewal(at=work.now, reason=reason.as_json(), **changed)
