"""A bank's own page: its ways and its staff."""

from __future__ import annotations

from uuid import UUID

from flask import url_for
from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.groups import actions, invitations, queries, schemas, seats
from hub.groups.pages.blueprint import pages
from hub.groups.role_words import MODES, ROLES
from hub.rights.right import Right
from hub.rights.scope import Role
from hub.web.forms import Form
from hub.web.limits import limited, minutes, person
from hub.web.render import done, render
from hub.words import say


@pages.get("/bank", needs=Right.BANK_MANAGE)
def bank(work: Work) -> Response:
    mine = queries.my_bank(work)
    return render(
        "groups/bank.html",
        bank=mine,
        mode=MODES[mine.adoption_mode],
        staff=queries.seats(work, bank_id=mine.id),
        invited=queries.open_invitations(work, bank_id=mine.id),
        roles=ROLES,
        me=work.scope.person_id,
    )


@pages.get("/bank/settings", needs=Right.BANK_MANAGE)
def bank_settings(work: Work) -> Response:
    return settings_shown(Form(schemas.BankSchema(), queries.my_bank(work)))


@pages.post("/bank/settings", needs=Right.BANK_MANAGE)
def send_bank_settings(work: Work) -> Response:
    form = Form.sent(schemas.BankSchema())
    with form.answering():
        actions.settle_bank(work, **form.data)
        return done(say("The bank’s ways are saved."), url_for(".bank"))
    return settings_shown(form)


def settings_shown(form: Form) -> Response:
    return render(
        "groups/bank_settings.html", form=form, modes=list(MODES.items()), zones=offered_zones(form)
    )


def offered_zones(form: Form) -> list[tuple[str, str]]:
    """The time zones, and whatever else the bank has had so far."""
    names = schemas.zones()
    kept = form.value("zone")
    return [(name, name) for name in ([] if kept in names or not kept else [kept]) + names]


@pages.get("/bank/invite", needs=Right.BANK_MANAGE)
def invite_staff(work: Work) -> Response:
    return staff_form(Form(schemas.InviteSchema(), {"role": Role.TECHNICIAN}))


@pages.post("/bank/invite", needs=Right.BANK_MANAGE)
@limited("invite", times=30, within=minutes(60), by=person)
def send_invite_staff(work: Work) -> Response:
    form = Form.sent(schemas.InviteSchema())
    with form.answering():
        invitations.invite_to_bank(work, **form.data)
        return done(say("A letter is on its way to {email}.", email=form.data["email"]), url_for(".bank"))
    return staff_form(form)


def staff_form(form: Form) -> Response:
    return render("groups/invite_staff.html", form=form)


@pages.post("/bank/invitations/<uuid:invitation_id>/withdraw", needs=Right.BANK_MANAGE)
def withdraw_staff(work: Work, invitation_id: UUID) -> Response:
    invitations.withdraw(work, invitation_id=invitation_id)
    return done(say("The invitation is withdrawn; its link works no more."), url_for(".bank"))


@pages.get("/bank/staff/<uuid:seat_id>/end", needs=Right.BANK_MANAGE)
def ask_end_staff(work: Work, seat_id: UUID) -> Response:
    held, member = queries.get_near(work, seat_id)
    return render("groups/end_seat.html", held=held, member=member, back=url_for(".bank"))


@pages.post("/bank/staff/<uuid:seat_id>/end", needs=Right.BANK_MANAGE)
def end_staff(work: Work, seat_id: UUID) -> Response:
    seats.end_seat(work, seat_id=seat_id)
    return done(say("That seat has ended."), url_for(".bank"))
