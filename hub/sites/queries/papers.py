"""Permissions and permits: the newest, and those that hold on a day."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any
from uuid import UUID

from sqlalchemy import ColumnElement, Select, or_, select

from hub.db.work import Work
from hub.groups.queries import there
from hub.sites.models import Permission, Permit, Site
from hub.sites.rules import ONCE_GRANTED, Paper, holds_on, is_a_no, papers_missing, papers_needed
from hub.taxa.models import Standing, Taxon
from hub.taxa.standings import needs_permit

PERMIT_ORDERS: dict[str, Sequence[Any]] = {
    "newest": (Permit.starts_on.desc(), Permit.id),
    "oldest": (Permit.starts_on, Permit.id),
    "ends": (Permit.ends_on, Permit.id),
    "ends-down": (Permit.ends_on.desc(), Permit.id),
    "number": (Permit.number, Permit.id),
    "number-down": (Permit.number.desc(), Permit.id),
}


def get_permission(work: Work, permission_id: UUID, *, locked: bool = False) -> Permission:
    """One permission of a site that this seat is let in on. Raises NotFound."""
    found = select(Permission).where(Permission.id == permission_id)
    return there(work.db.scalars(found.with_for_update() if locked else found).one_or_none(), permission_id)


def permissions_of(work: Work, site_id: UUID) -> list[Permission]:
    """Every permission a site ever had, the newest first."""
    found = select(Permission).where(Permission.site_id == site_id)
    return list(work.db.scalars(found.order_by(Permission.noted_at.desc(), Permission.id.desc())))


def newest_permission(work: Work, site_id: UUID) -> Permission | None:
    """Where the owner's permission stands now."""
    found = select(Permission).where(Permission.site_id == site_id)
    return work.db.scalars(found.order_by(Permission.noted_at.desc(), Permission.id.desc()).limit(1)).first()


def permission_on(work: Work, site_id: UUID, day: date) -> Permission | None:
    """The permission that held on this day, also when it has run out or was withdrawn since.

    The owner's newest word counts: a no ends every earlier yes from the day on which it was given.
    """
    for answer in permissions_of(work, site_id):
        if is_a_no(day, answer.state, answered_on=answer.answered_on, withdrawn_on=answer.withdrawn_on):
            return None
        granted = answer.state in ONCE_GRANTED
        if granted and holds_on(day, answer.starts_on, answer.ends_on, answer.withdrawn_on):
            return answer
    return None


def get_permit(work: Work, permit_id: UUID) -> Permit:
    """One permit of this seat's bank. Raises NotFound."""
    return there(work.db.scalars(select(Permit).where(Permit.id == permit_id)).one_or_none(), permit_id)


def permits_on(work: Work, *, taxon_id: UUID, site_id: UUID, day: date) -> list[Permit]:
    """The permits that cover this taxon at this site on this day, the first to end first."""
    found = covering(taxon_id, site_id, day)
    return list(work.db.scalars(found.order_by(Permit.ends_on, Permit.id)))


def covering(taxon_id: UUID, site_id: UUID, day: date) -> Select[Permit]:
    return select(Permit).where(
        or_(Permit.taxon_id.is_(None), Permit.taxon_id == taxon_id),
        or_(Permit.site_id.is_(None), Permit.site_id == site_id),
        in_force(day),
    )


def lock_permits(work: Work, *, taxon_id: UUID, site_id: UUID, day: date) -> None:
    """Keep every permit that covers this taxon at this site until the commit.

    A cap counts at all its sites together, so whoever is about to reckon with it waits for those who do so
    now. Always in the same order, so that no two wait for each other.
    """
    found = covering(taxon_id, site_id, day).order_by(Permit.id).with_for_update()
    work.db.scalars(found).all()


def in_force(day: date) -> ColumnElement[bool]:
    """Permits that hold on this day."""
    ended = or_(Permit.ended_on.is_(None), Permit.ended_on > day)
    return (Permit.starts_on <= day) & (Permit.ends_on >= day) & ended


def permits(
    work: Work, *, search: str | None = None, holds: bool | None = None, taxon: UUID | None = None
) -> Select[Any]:
    """The permits this seat may see, each with the names of its taxon and its site where it has one."""
    found: Any = (
        select(Permit, Taxon.canonical, Site.name)
        .outerjoin(Taxon, Taxon.id == Permit.taxon_id)
        .outerjoin(Site, Site.id == Permit.site_id)
    )
    if search:
        columns = (Permit.number, Permit.authority, Taxon.canonical, Taxon.vernacular, Site.name)
        found = found.where(or_(*(column.icontains(search, autoescape=True) for column in columns)))
    if taxon is not None:
        found = found.where(Permit.taxon_id == taxon)
    return found.where(in_force(work.today)) if holds else found


def missing_papers(work: Work, *, site: Site, taxon_id: UUID, day: date) -> list[Paper]:
    """The papers that collecting this taxon at this site on this day needs and the site's bank does not hold.

    Work across all tenants sees every bank's permits, and those of another bank allow this one nothing.
    """
    standings = work.db.scalars(select(Standing).where(Standing.taxon_id == taxon_id)).all()
    needed = papers_needed(
        taxon_listed=needs_permit(standings),
        protected_area=bool(site.protected_area),  # where nobody has said of these two, the sheet asks
        own_consent=bool(site.own_consent_needed),
    )
    found = permits_on(work, taxon_id=taxon_id, site_id=site.id, day=day)
    held = [permit for permit in found if permit.bank_id == site.bank_id]
    return papers_missing(
        needed,
        permission=permission_on(work, site.id, day) is not None,
        taxon_permits=sum(permit.taxon_id == taxon_id for permit in held),
        site_authorities={permit.authority for permit in held if permit.site_id == site.id},
    )
