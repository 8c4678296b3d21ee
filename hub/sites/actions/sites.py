"""Open a site, change it, and let groups in on it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any
from uuid import UUID

from sqlalchemy import select

from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.work import Work
from hub.groups.models import Bank, District
from hub.groups.queries import get_group, there
from hub.science.distance import Position, contains
from hub.science.outlines import read_outline
from hub.sites import queries
from hub.sites.actions.noted import changes, check_version
from hub.sites.models import Permission, Site, SiteGrant
from hub.taxa.models import Ecoregion
from hub.words import Refused, say

UNNOTED = frozenset({"latitude", "longitude", "outline", "locality", "owner_email"})
"""What the audit chain says has changed without saying to what: places, and how to reach people."""


def open_site(
    work: Work,
    *,
    name: str,
    district_id: UUID,
    outline: Mapping[str, Any] | None = None,
    risks: Sequence[str] | None = None,
    **more: Any,
) -> Site:
    """Open a site for the asker's bank; a group that opens one is let in on it.

    ``more`` are the other columns that people fill in: latitude, longitude, radius_m and owner_label always,
    and ecoregion_id, owner_email, habitat, locality, risk_note, protected_area and own_consent_needed as
    known; where nobody has looked, ``risks``, protected_area and own_consent_needed stay None. Raises
    Refused, with the distance, for a position outside the district.
    """
    bank = there(work.db.get(Bank, work.scope.bank_id), "bank")
    site = Site(
        bank_id=bank.id,
        opened_by_group_id=work.scope.own_group_id,
        name=name,
        district_id=district_id,
        outline=read_outline(outline) if outline else None,
        risks=None if risks is None else [str(risk) for risk in risks],
        **more,
    )
    check_place(work, site, bank)
    work.db.add(site)
    work.db.flush()  # the grant and the permission point at it
    if work.scope.own_group_id:
        let_in(work, site, work.scope.own_group_id)
    work.db.add(Permission(bank_id=bank.id, site_id=site.id, noted_at=work.now))
    record(work, Event.SITE_OPENED, site, after={"name": name, "district_id": str(district_id)})
    return site


def check_place(work: Work, site: Site, bank: Bank) -> None:
    """The position lies in the district and in the outline, the ecoregion is one of the region's."""
    district = work.db.get(District, site.district_id)
    if district is None or district.region_id != bank.region_id:
        raise Refused(say("Please choose one of the districts of your region."), field="district_id")
    position = Position(latitude=site.latitude, longitude=site.longitude)
    queries.check_inside_district(district, position)
    if site.outline and not contains(site.outline, position):
        raise Refused(say("The position of the site must lie inside its outline."), field="latitude")
    if site.ecoregion_id is None:
        site.ecoregion_id = queries.ecoregion_at(work, region_id=bank.region_id, position=position)
    elif getattr(work.db.get(Ecoregion, site.ecoregion_id), "region_id", None) != bank.region_id:
        raise Refused(say("Please choose one of the ecoregions of your region."), field="ecoregion_id")


def change_site(work: Work, *, site_id: UUID, version: int | None = None, **fields: Any) -> Site:
    """Change what is given of a site; ``version`` is the one that the asker looked at.

    Raises Refused for a stale version, a position outside the district, and populations left outside.
    """
    site = queries.get_site(work, site_id, locked=True)
    check_version(site, version)
    if fields.get("outline"):
        fields["outline"] = read_outline(fields["outline"])
    if fields.get("risks") is not None:
        fields["risks"] = [str(risk) for risk in fields["risks"]]
    with work.db.no_autoflush:
        before, after = changes(site, fields, unnoted=UNNOTED)
        if not after:
            return site
        check_place(work, site, there(work.db.get(Bank, site.bank_id), site.bank_id))
        check_populations(work, site)
    record(work, Event.SITE_CHANGED, site, before=before, after=after)
    return site


def check_populations(work: Work, site: Site) -> None:
    """A site may not be moved away from, or drawn around, its own plants."""
    for population, _ in queries.populations_at(work, site.id):
        position = Position(latitude=population.latitude, longitude=population.longitude)
        try:
            queries.check_inside_site(site, position, uncertainty_m=population.uncertainty_m)
        except Refused:
            words = say("Population {code} would lie outside this site.", code=population.code)
            raise Refused(words, field="latitude") from None


def let_in(work: Work, site: Site, group_id: UUID) -> SiteGrant:
    grant = SiteGrant(group_id=group_id, bank_id=site.bank_id, site_id=site.id, since=work.now)
    work.db.add(grant)
    work.db.flush()  # what is added next is seen through it
    return grant


def share_site(work: Work, *, site_id: UUID, group_id: UUID) -> SiteGrant:
    """Let one of the bank's groups in on a site; a group that is let in already stays so."""
    site, group = queries.get_site(work, site_id), get_group(work, group_id)
    if group.bank_id != site.bank_id:
        raise Refused(say("This group belongs to another bank."), field="group_id")
    found = select(SiteGrant).where(SiteGrant.site_id == site.id, SiteGrant.group_id == group.id)
    grant = work.db.scalars(found).one_or_none()
    if grant is None:
        grant = let_in(work, site, group.id)
        record(work, Event.SITE_SHARED, grant, after={"site_id": str(site.id), "shared": True})
    return grant


def unshare_site(work: Work, *, site_id: UUID, group_id: UUID) -> None:
    """Take a group's view of a site away again. Raises Refused for the group that opened it."""
    site = queries.get_site(work, site_id)
    if site.opened_by_group_id == group_id:
        raise Refused(say("This group opened the site, so it stays let in."))
    found = select(SiteGrant).where(SiteGrant.site_id == site.id, SiteGrant.group_id == group_id)
    grant = there(work.db.scalars(found).one_or_none(), group_id)
    record(work, Event.SITE_SHARED, grant, before={"shared": True}, after={"shared": False})
    work.db.delete(grant)
