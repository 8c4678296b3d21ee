"""Sites that a seat may see, and who is let in on them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from typing import Any
from uuid import UUID

from sqlalchemy import ColumnElement, Select, func, or_, select

from hub.db.work import Work
from hub.groups.models import District, Group
from hub.groups.queries import there
from hub.groups.rules import GroupState
from hub.science.distance import Position, contains
from hub.sites.models import Permission, Population, Site, SiteGrant
from hub.sites.rules import PermissionState
from hub.taxa.models import Ecoregion, Taxon

ORDERS: dict[str, Sequence[Any]] = {
    "name": (func.lower(Site.name), Site.id),
    "name-down": (func.lower(Site.name).desc(), Site.id),
    "district": (District.name, func.lower(Site.name), Site.id),
    "district-down": (District.name.desc(), func.lower(Site.name).desc(), Site.id),
    "ends": (Permission.ends_on, Site.id),
    "ends-down": (Permission.ends_on.desc(), Site.id),
}


def get_site(work: Work, site_id: UUID | None, *, locked: bool = False) -> Site:
    """One site that this seat is let in on. Raises NotFound."""
    found = select(Site).where(Site.id == site_id)
    return there(work.db.scalars(found.with_for_update() if locked else found).one_or_none(), site_id)


def sites(
    work: Work,
    *,
    search: str | None = None,
    state: PermissionState | None = None,
    district: UUID | None = None,
    taxon: UUID | None = None,
) -> Select[Any]:
    """The sites this seat may see, each with its district's name and its newest permission."""
    found: Any = (
        select(Site, District.name, Permission)
        .join(District, District.id == Site.district_id)
        .outerjoin(Permission, Permission.id == newest_permission_id())
    )
    if search:
        found = found.where(said_of_site(search))
    if state is not None:
        found = found.where(Permission.state == state)
    if district is not None:
        found = found.where(Site.district_id == district)
    if taxon is not None:
        there_grows = select(Population.site_id).where(
            Population.taxon_id == taxon, Population.retired_at.is_(None)
        )
        found = found.where(Site.id.in_(there_grows))
    return found


def newest_permission_id() -> Any:
    newer = select(Permission.id).where(Permission.site_id == Site.id).correlate(Site)
    return newer.order_by(Permission.noted_at.desc(), Permission.id.desc()).limit(1).scalar_subquery()


def said_of_site(search: str) -> ColumnElement[bool]:
    columns = (Site.name, Site.owner_label, Site.habitat)
    return or_(*(column.icontains(search, autoescape=True) for column in columns))


def groups_let_in(work: Work, site_id: UUID) -> Sequence[tuple[UUID, str]]:
    """Id and name of every group let in on a site that this seat may know of."""
    found = select(Group.id, Group.name).join(SiteGrant, SiteGrant.group_id == Group.id)
    return work.db.execute(found.where(SiteGrant.site_id == site_id).order_by(Group.name)).all()


def is_let_in(work: Work, *, site_id: UUID, group_id: UUID) -> bool:
    """Whether a group is let in on a site already."""
    found = select(SiteGrant.id).where(SiteGrant.site_id == site_id, SiteGrant.group_id == group_id)
    return work.db.scalars(found).first() is not None


def ecoregion_at(work: Work, *, region_id: UUID, position: Position) -> UUID | None:
    """The ecoregion that a position lies in; of several, the one with the longest code: the finest."""
    rows = work.db.execute(
        select(Ecoregion.id, Ecoregion.geometry)
        .where(Ecoregion.region_id == region_id)
        .order_by(func.length(Ecoregion.code).desc(), Ecoregion.code)
    )
    return next((found for found, geometry in rows if contains(geometry, position)), None)


def district_name(work: Work, site: Site) -> str:
    return work.db.scalars(select(District.name).where(District.id == site.district_id)).one()


def groups_to_let_in(work: Work, *, but: Sequence[UUID]) -> Sequence[Any]:
    """Id and name of the bank's active groups that are not let in yet."""
    found = select(Group.id, Group.name).where(Group.state == GroupState.ACTIVE, Group.id.not_in(but))
    return work.db.execute(found.order_by(Group.name)).all()


def taxa_by_site(work: Work) -> dict[UUID, list[Any]]:
    """Care class and sensitivity of all that grows, by site, as far as this seat may see."""
    rows = select(Population.site_id, Taxon.care_class, Taxon.sensitivity)
    found: dict[UUID, list[Any]] = defaultdict(list)
    for row in work.db.execute(rows.join(Taxon, Taxon.id == Population.taxon_id).distinct()):
        found[row.site_id].append(row)
    return found


def sites_by_name(work: Work) -> Sequence[Any]:
    """Id and name of every site that this seat may see, for a form to choose from."""
    return work.db.execute(select(Site.id, Site.name).order_by(func.lower(Site.name))).all()
