"""Permits of authorities: recorded by the bank, and ended when the authority takes one back."""

from __future__ import annotations

from datetime import date
from uuid import UUID

from sqlalchemy import select

from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.work import Work
from hub.sites import queries
from hub.sites.models import Permit
from hub.taxa.models import Taxon
from hub.words import NotFound, Refused, say


def record_permit(
    work: Work,
    *,
    authority: str,
    number: str,
    starts_on: date,
    ends_on: date,
    taxon_id: UUID | None = None,
    site_id: UUID | None = None,
    cap_seeds: int | None = None,
    conditions: str = "",
) -> Permit:
    """Record a permit for a taxon, a site, or a taxon at a site, holding from one day to another."""
    if work.scope.own_bank_id is None:
        raise NotFound("bank")
    if taxon_id is None and site_id is None:
        raise Refused(say("Say which species, which site, or both, the permit is for."), field="taxon_id")
    if taxon_id and work.db.get(Taxon, taxon_id) is None:
        raise Refused(say("Please choose one of the species."), field="taxon_id")
    if site_id:
        queries.get_site(work, site_id)
    if ends_on < starts_on:
        raise Refused(say("The last day comes before the first."), field="ends_on")
    check_new(work, authority, number, taxon_id, site_id)
    permit = Permit(
        bank_id=work.scope.own_bank_id,
        taxon_id=taxon_id,
        site_id=site_id,
        authority=authority,
        number=number,
        starts_on=starts_on,
        ends_on=ends_on,
        cap_seeds=cap_seeds,
        conditions=conditions,
    )
    work.db.add(permit)
    work.db.flush()
    after = {"number": number, "cap_seeds": cap_seeds, "starts_on": str(starts_on), "ends_on": str(ends_on)}
    record(work, Event.PERMIT_RECORDED, permit, after=after)
    return permit


def check_new(work: Work, authority: str, number: str, taxon_id: UUID | None, site_id: UUID | None) -> None:
    """One paper is recorded once: its cap must not count twice."""
    found = select(Permit.id).where(
        Permit.authority == authority,
        Permit.number == number,
        Permit.taxon_id.is_(None) if taxon_id is None else Permit.taxon_id == taxon_id,
        Permit.site_id.is_(None) if site_id is None else Permit.site_id == site_id,
        Permit.ended_on.is_(None),
    )
    if work.db.scalars(found).first():
        raise Refused(say("A permit of this number is recorded already."), field="number")


def end_permit(work: Work, *, permit_id: UUID, on: date, reason: str) -> Permit:
    """The authority took the permit back: from this day on it holds no more."""
    permit = queries.get_permit(work, permit_id)
    if permit.ended_on is not None:
        raise Refused(say("This permit was ended already."))
    if on > work.today:
        raise Refused(say("This day is still to come."), field="on")
    permit.ended_on = on
    record(work, Event.PERMIT_ENDED, permit, after={"ended_on": str(on)}, reason=reason)
    return permit
