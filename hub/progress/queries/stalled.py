"""Adoptions that have not moved for too long, for those who may call on their groups."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any
from uuid import UUID

from sqlalchemy import ColumnElement, Select, and_, case, false, func, or_, select

from hub.adoptions.models import Adoption
from hub.adoptions.rules import STAGES, Stage
from hub.db.work import Work
from hub.groups.models import District, Group
from hub.progress.rules import CAN_STALL, STALLED_AFTER
from hub.taxa.models import Season, Taxon
from hub.taxa.queries import matching

BY_STAGE = case({stage: at for at, stage in enumerate(STAGES)}, value=Adoption.stage)
CONTACT = (Group.contact_name.label("contact"), Group.contact_email.label("email"))
STALLED_ORDERS: dict[str, Sequence[Any]] = {
    "longest": (Adoption.moved_at, Adoption.id),
    "shortest": (Adoption.moved_at.desc(), Adoption.id),
    "species": (Taxon.canonical, Adoption.id),
    "species-down": (Taxon.canonical.desc(), Adoption.id),
    "group": (func.lower(Group.name), Adoption.id),
    "group-down": (func.lower(Group.name).desc(), Adoption.id),
    "stage": (BY_STAGE, Adoption.moved_at, Adoption.id),
    "stage-down": (BY_STAGE.desc(), Adoption.moved_at, Adoption.id),
}


def stalled(
    work: Work,
    *,
    search: str | None = None,
    stage: Stage | None = None,
    district: UUID | None = None,
    year: int | None = None,
) -> Select[Any]:
    """The stalled adoptions that this seat looks after, each with taxon, group, district and whom to call on.

    The work may see all tenants, so what belongs to the seat is said here and nowhere else.
    """
    found: Any = (
        select(Adoption, Taxon, Group.name.label("group"), District.name.label("district"), *CONTACT)
        .join(Taxon, Taxon.id == Adoption.taxon_id)
        .join(Group, Group.id == Adoption.group_id)
        .join(District, District.id == Adoption.district_id)
        .where(looked_after(work), Adoption.state.in_(CAN_STALL), too_long(work))
    )
    if search:
        found = found.where(or_(matching(search), Group.name.icontains(search, autoescape=True)))
    if stage is not None:
        found = found.where(Adoption.stage == stage)
    if district is not None:
        found = found.where(Adoption.district_id == district)
    if year is not None:
        found = found.where(Adoption.season_id.in_(select(Season.id).where(Season.year == year)))
    return found


def looked_after(work: Work) -> ColumnElement[bool]:
    """A coordinator's region, or a curator's bank; nothing for anybody else."""
    if work.scope.own_region_id:
        return Adoption.region_id == work.scope.own_region_id
    return Adoption.bank_id == work.scope.own_bank_id if work.scope.own_bank_id else false()


def too_long(work: Work) -> ColumnElement[bool]:
    """No move for longer than the stage should take."""
    return or_(
        *(
            and_(Adoption.stage == stage, Adoption.moved_at <= work.now - after)
            for stage, after in STALLED_AFTER.items()
        )
    )


def districts_of_region(work: Work) -> list[tuple[UUID, str]]:
    """Id and name of the districts of the asker's region."""
    found = select(District.id, District.name).where(District.region_id == work.scope.region_id)
    return [(row.id, row.name) for row in work.db.execute(found.order_by(District.name))]
