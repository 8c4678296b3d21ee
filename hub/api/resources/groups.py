"""Groups: a group sees itself, a curator those of the bank. Crews have a nickname and nothing personal."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from marshmallow import fields
from sqlalchemy import func

from hub.api.blueprint import api
from hub.api.listing import Asked, listing
from hub.api.rows import only
from hub.api.shown import Count, Kept, Shown
from hub.db.work import Work
from hub.groups import queries
from hub.groups.models import Crew, Group
from hub.groups.rules import AgeBand, GroupKind, GroupState
from hub.rights.right import Right
from hub.web.fields import Choice, Identifier
from hub.web.paging import Page
from hub.words import say

ORDERS = {
    "name": (func.lower(Group.name), Group.id),
    "newest": (Group.asked_at.desc(), Group.id),
}
GROUPS = listing("Groups", ORDERS, state=Choice(GroupState), kind=Choice(GroupKind), district=Identifier())


class GroupShown(Shown):
    """A club or a school."""

    id = fields.UUID(attribute="Group.id")
    name = fields.String(attribute="Group.name")
    code = fields.String(attribute="Group.code")
    kind = Choice(GroupKind, attribute="Group.kind")
    state = Choice(GroupState, attribute="Group.state")
    bank_id = fields.UUID(attribute="Group.bank_id")
    region_id = fields.UUID(attribute="Group.region_id")
    district_id = fields.UUID(attribute="Group.district_id", allow_none=True)
    district = fields.String(attribute="name", allow_none=True)
    about = fields.String(attribute="Group.about")
    experienced = fields.Boolean(attribute="Group.experienced")
    contact_name = fields.String(attribute="Group.contact_name")
    contact_email = fields.String(attribute="Group.contact_email")


class CrewShown(Shown):
    """Pupils who work together, under a nickname."""

    id = fields.UUID()
    nickname = fields.String()
    headcount = Count("pupils")
    age_band = Kept(AgeBand)


@api.shows(
    "/groups",
    needs=Right.GROUP_READ,
    summary=say("The groups that this seat may see"),
    asks=GROUPS,
    gives=GroupShown(),
    paged=True,
)
def groups(work: Work, asked: Asked) -> Page:
    return asked.page(work, queries.groups(work, **asked.filters))


@api.shows("/groups/<uuid:group_id>", needs=Right.GROUP_READ, summary=say("One group"), gives=GroupShown())
def group(work: Work, group_id: UUID) -> Any:
    return only(work, queries.groups(work).where(Group.id == group_id))


@api.shows(
    "/crews",
    needs=Right.GROUP_READ,
    summary=say("The crews of the own group"),
    gives=CrewShown(),
    many=True,
)
def crews(work: Work) -> list[Crew]:
    return queries.crews(work)
