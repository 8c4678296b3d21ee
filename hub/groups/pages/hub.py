"""The steward's page: regions, banks, and who is asked to run them."""

from __future__ import annotations

from collections.abc import Sequence
from uuid import UUID

from flask import request, url_for
from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.groups import invitations, land, queries, schemas, seats
from hub.groups.models import Bank, Region
from hub.groups.pages.blueprint import pages
from hub.groups.role_words import ROLES
from hub.rights.right import Right
from hub.rights.scope import Role
from hub.web.forms import Form
from hub.web.limits import limited, minutes, person
from hub.web.render import done, render
from hub.words import say

OFFICERS = (Role.STEWARD, Role.COORDINATOR, Role.CURATOR)


@pages.get("/hub", needs=Right.HUB_MANAGE)
def hub(work: Work) -> Response:
    regions, banks = queries.regions(work), queries.banks(work)
    names = {region.id: region.name for region in regions} | {bank.id: bank.name for bank in banks}
    return render(
        "groups/hub.html",
        regions=regions,
        banks=banks,
        place_names=names,
        officers=queries.seats(work, roles=OFFICERS),
        invited=queries.open_invitations(work, roles=OFFICERS),
        districts=queries.districts(work),
        roles=ROLES,
        me=work.scope.person_id,
    )


@pages.get("/hub/regions/new", needs=Right.HUB_MANAGE)
def new_region(work: Work) -> Response:
    return render("groups/new_region.html", form=Form(schemas.RegionSchema()))


@pages.post("/hub/regions/new", needs=Right.HUB_MANAGE)
def add_region(work: Work) -> Response:
    form = Form.sent(schemas.RegionSchema())
    with form.answering():
        region = land.add_region(work, **form.data)
        return done(say("The region {name} is laid out.", name=region.name), url_for(".hub"))
    return render("groups/new_region.html", form=form)


@pages.get("/hub/regions/<uuid:region_id>/districts/new", needs=Right.HUB_MANAGE)
def new_district(work: Work, region_id: UUID) -> Response:
    region = queries.get_region(work, region_id)
    return render("groups/new_district.html", form=Form(schemas.DistrictSchema()), region=region)


@pages.post("/hub/regions/<uuid:region_id>/districts/new", needs=Right.HUB_MANAGE)
def add_district(work: Work, region_id: UUID) -> Response:
    region = queries.get_region(work, region_id)
    form = Form.sent(schemas.DistrictSchema())
    with form.answering():
        district = land.add_district(work, region_id=region_id, **form.data)
        return done(say("The district {name} is added.", name=district.name), url_for(".hub"))
    return render("groups/new_district.html", form=form, region=region)


@pages.get("/hub/banks/new", needs=Right.HUB_MANAGE)
def new_bank(work: Work) -> Response:
    return bank_form(work, Form(schemas.NewBankSchema(), {"zone": "UTC"}))


@pages.post("/hub/banks/new", needs=Right.HUB_MANAGE)
def add_bank(work: Work) -> Response:
    form = Form.sent(schemas.NewBankSchema())
    with form.answering():
        bank = land.add_bank(work, **form.data)
        words = say("{name} is founded. Invite its first curator now.", name=bank.name)
        return done(words, url_for(".invite_officer", role=Role.CURATOR, place=bank.id))
    return bank_form(work, form)


def bank_form(work: Work, form: Form) -> Response:
    return render(
        "groups/new_bank.html",
        form=form,
        regions=[(each.id, each.name) for each in queries.regions(work)],
        zones=[(name, name) for name in schemas.zones()],
    )


@pages.get("/hub/invite/<any(curator, coordinator, steward):role>", needs=Right.HUB_MANAGE)
def invite_officer(work: Work, role: str) -> Response:
    return officer_form(work, Form(schemas.OfficerSchema(), request.args), Role(role))


@pages.post("/hub/invite/<any(curator, coordinator, steward):role>", needs=Right.HUB_MANAGE)
@limited("invite", times=30, within=minutes(60), by=person)
def send_invite_officer(work: Work, role: str) -> Response:
    form = Form.sent(schemas.OfficerSchema())
    with form.answering():
        invitations.invite_to_hub(work, role=Role(role), **form.data)
        return done(say("A letter is on its way to {email}.", email=form.data["email"]), url_for(".hub"))
    return officer_form(work, form, Role(role))


def officer_form(work: Work, form: Form, role: Role) -> Response:
    return render(
        "groups/invite_officer.html",
        form=form,
        role=role,
        role_words=ROLES[role],
        places=[(place.id, place.name) for place in offered(work, role)],
    )


def offered(work: Work, role: Role) -> Sequence[Bank | Region]:
    """Where somebody in this role can work: a curator in a bank, a coordinator in a region."""
    if role is Role.CURATOR:
        return queries.banks(work)
    return queries.regions(work) if role is Role.COORDINATOR else ()


@pages.post("/hub/invitations/<uuid:invitation_id>/withdraw", needs=Right.HUB_MANAGE)
def withdraw_officer(work: Work, invitation_id: UUID) -> Response:
    invitations.withdraw(work, invitation_id=invitation_id)
    return done(say("The invitation is withdrawn; its link works no more."), url_for(".hub"))


@pages.get("/hub/officers/<uuid:seat_id>/end", needs=Right.HUB_MANAGE)
def ask_end_officer(work: Work, seat_id: UUID) -> Response:
    held, member = queries.get_near(work, seat_id)
    return render("groups/end_seat.html", held=held, member=member, back=url_for(".hub"))


@pages.post("/hub/officers/<uuid:seat_id>/end", needs=Right.HUB_MANAGE)
def end_officer(work: Work, seat_id: UUID) -> Response:
    seats.end_seat(work, seat_id=seat_id)
    return done(say("That seat has ended."), url_for(".hub"))
