"""The second step of one's own account: set up with a phone, recovery codes shown once, turned off."""

from __future__ import annotations

import segno
from flask import redirect, url_for
from werkzeug.wrappers import Response

from hub.accounts import factors, queries, schemas
from hub.accounts.pages.account import this_sign_in
from hub.accounts.pages.blueprint import pages
from hub.accounts.pages.patience import hold_code, refusals_noted
from hub.accounts.rules import GUARDED_ROLES
from hub.db.work import Work
from hub.rights.right import Right
from hub.web.caller import caller
from hub.web.forms import Form
from hub.web.limits import limited, minutes, person
from hub.web.render import done, render
from hub.words import say

QUIET = 4  # modules of white around the code (ISO/IEC 18004)


@pages.get("/account/second-step", needs=Right.ACCOUNT_OWN)
def second_step(work: Work) -> Response:
    return shown(work, Form(schemas.PasswordSchema()))


def shown(work: Work, form: Form) -> Response:
    """On or off, and what can be done about it; ``form`` is the one that was sent."""
    return render(
        "accounts/second_step.html",
        form=form,
        factor=queries.factor_of(work, work.scope.person_id),
        left=queries.recovery_codes_left(work),
        asked=work.scope.role in GUARDED_ROLES,
        waits=caller().waits,
    )


@pages.post("/account/second-step", needs=Right.ACCOUNT_OWN)
@limited("password", times=10, within=minutes(15), by=person)
def begin_second_step(work: Work) -> Response:
    form = Form.sent(schemas.PasswordSchema())
    with form.answering():
        factors.begin(work, **form.data)
        return redirect(url_for(".set_up"), code=303)
    return shown(work, form)


@pages.get("/account/second-step/set-up", needs=Right.ACCOUNT_OWN)
def set_up(work: Work) -> Response:
    return phone_told(work, Form(schemas.CodeSchema()))


def phone_told(work: Work, form: Form) -> Response:
    told = factors.being_set_up(work)
    picture = segno.make_qr(told.address, error="m").svg_data_uri(border=QUIET, omitsize=True, light="#fff")
    return render("accounts/set_up.html", form=form, secret=told.secret, picture=picture)


@pages.post("/account/second-step/set-up", needs=Right.ACCOUNT_OWN)
@limited("code", times=30, within=minutes(15), by=person)
def confirm_second_step(work: Work) -> Response:
    form = Form.sent(schemas.CodeSchema())
    with form.answering():
        drawn = factors.confirm(work, **form.data, sign_in_id=this_sign_in())
        return render("accounts/recovery_codes.html", codes=drawn, fresh=True)
    return phone_told(work, form)


@pages.post("/account/second-step/recovery-codes", needs=Right.ACCOUNT_OWN)
@limited("password", times=10, within=minutes(15), by=person)
def renew_recovery_codes(work: Work) -> Response:
    form = Form.sent(schemas.PasswordAndCodeSchema())
    with form.answering(), refusals_noted(work):
        hold_code(work, work.scope.person_id, form.data["code"])
        drawn = factors.renew_recovery_codes(work, **form.data)
        return render("accounts/recovery_codes.html", codes=drawn, fresh=False)
    return shown(work, form)


@pages.post("/account/second-step/off", needs=Right.ACCOUNT_OWN)
@limited("password", times=10, within=minutes(15), by=person)
def turn_off_second_step(work: Work) -> Response:
    form = Form.sent(schemas.PasswordAndCodeSchema())
    with form.answering(), refusals_noted(work):
        hold_code(work, work.scope.person_id, form.data["code"])
        factors.turn_off(work, **form.data, sign_in_id=this_sign_in())
        return done(
            say("Your second step is off. Your other sessions and your keys for programs have ended."),
            url_for(".account"),
        )
    return shown(work, form)
