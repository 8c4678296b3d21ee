"""The curator's list of groups, and one group: taken in, declined, closed, given a lead."""

from __future__ import annotations

from collections.abc import Iterable
from uuid import UUID

from flask import url_for
from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.groups import actions, invitations, queries, schemas
from hub.groups.pages.blueprint import pages
from hub.groups.role_words import KINDS, ROLES, STATES
from hub.groups.rules import GROUP_MOVES, GroupKind, GroupState
from hub.rights.right import Right
from hub.web.downloads import csv_download
from hub.web.fields import Choice, Identifier
from hub.web.forms import Form
from hub.web.limits import limited, minutes, person
from hub.web.listing import Asked, Filter
from hub.web.render import done, render
from hub.words import say

HEAD = (
    say("Group"),
    say("Code"),
    say("Kind"),
    say("State"),
    say("District"),
    say("Asked on"),
    say("Contact"),
)


def filters(districts: Iterable[tuple[UUID, str]]) -> list[Filter]:
    """What the list can be narrowed by."""
    names = dict(districts)
    return [
        Filter("state", say("State"), Choice(GroupState), STATES.__getitem__),
        Filter("kind", say("Kind"), Choice(GroupKind), KINDS.__getitem__),
        Filter("district", say("District"), Identifier(), lambda key: names.get(key, "–")),
    ]


def offered_districts(work: Work) -> list[tuple[UUID, str]]:
    """The districts of the bank's own region; a steward's stand under their region's name."""
    own = work.scope.region_id
    found = queries.districts(work, region_id=own)
    return [(place.id, place.name if own else f"{place.region}: {place.name}") for place in found]


@pages.get("/groups", needs=Right.GROUP_APPROVE)
def groups(work: Work) -> Response:
    districts = offered_districts(work)
    asked = Asked.of(filters(districts), queries.ORDERS)
    statement = queries.groups(work, **asked.values)
    if asked.wants_csv:
        rows = asked.everything(work, statement)
        return csv_download("groups", HEAD, (row_of(*row) for row in rows))
    return render(
        "groups/groups.html",
        asked=asked,
        page=asked.page(work, statement),
        kinds=list(KINDS.items()),
        states=list(STATES.items()),
        districts=districts,
        kind_words=KINDS,
        state_words=STATES,
    )


@pages.get("/groups/<uuid:group_id>", needs=Right.GROUP_APPROVE)
def group(work: Work, group_id: UUID) -> Response:
    return shown(work, group_id, Form(schemas.ReasonSchema()))


def shown(work: Work, group_id: UUID, form: Form) -> Response:
    found = queries.get_group(work, group_id)
    return render(
        "groups/group.html",
        group=found,
        form=form,
        bank=queries.bank_of(work, found),
        district=queries.district_name(work, found),
        members=queries.seats(work, group_id=found.id),
        invited=queries.open_invitations(work, group_id=found.id),
        moves=GROUP_MOVES[found.state],
        roles=ROLES,
        kind=KINDS[found.kind],
        state=STATES[found.state],
    )


@pages.post("/groups/<uuid:group_id>/approve", needs=Right.GROUP_APPROVE)
def approve(work: Work, group_id: UUID) -> Response:
    found = actions.approve(work, group_id=group_id)
    words = say("{name} is in. Its contact is invited by mail to lead it.", name=found.name)
    return done(words, url_for(".group", group_id=group_id))


@pages.post("/groups/<uuid:group_id>/decline", needs=Right.GROUP_APPROVE)
def decline(work: Work, group_id: UUID) -> Response:
    form = Form.sent(schemas.ReasonSchema())
    with form.answering():
        found = actions.decline(work, group_id=group_id, **form.data)
        return done(say("{name} was told no, with your reason.", name=found.name), url_for(".groups"))
    return shown(work, group_id, form)


@pages.post("/groups/<uuid:group_id>/close", needs=Right.GROUP_APPROVE)
def close(work: Work, group_id: UUID) -> Response:
    form = Form.sent(schemas.ReasonSchema())
    with form.answering():
        found = actions.close(work, group_id=group_id, **form.data)
        words = say("{name} is closed. Its work stays; you can open it again.", name=found.name)
        return done(words, url_for(".group", group_id=group_id))
    return shown(work, group_id, form)


@pages.get("/groups/<uuid:group_id>/invite-lead", needs=Right.GROUP_APPROVE)
def invite_lead(work: Work, group_id: UUID) -> Response:
    found = queries.get_group(work, group_id)
    form = Form(schemas.InviteLeadSchema(), {"email": found.contact_email})
    return render("groups/invite_lead.html", form=form, group=found)


@pages.post("/groups/<uuid:group_id>/invite-lead", needs=Right.GROUP_APPROVE)
@limited("invite", times=30, within=minutes(60), by=person)
def send_invite_lead(work: Work, group_id: UUID) -> Response:
    found = queries.get_group(work, group_id)
    form = Form.sent(schemas.InviteLeadSchema())
    with form.answering():
        invitations.invite_lead(work, group_id=group_id, **form.data)
        words = say("A letter is on its way to {email}.", email=form.data["email"])
        return done(words, url_for(".group", group_id=group_id))
    return render("groups/invite_lead.html", form=form, group=found)


def row_of(found: queries.Group, district: str | None) -> tuple[object, ...]:
    kind, state = KINDS[found.kind], STATES[found.state]
    asked_on = found.asked_at.date()
    return found.name, found.code, kind, state, district, asked_on, found.contact_name
