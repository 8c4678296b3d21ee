"""Closing one's account: it stands with the seats, because nobody may leave others without a lead."""

from __future__ import annotations

from flask import url_for
from werkzeug.wrappers import Response

from hub.accounts import cookies
from hub.db.work import Work
from hub.groups import schemas, seats
from hub.groups.pages.blueprint import pages
from hub.rights.right import Right
from hub.web.forms import Form
from hub.web.limits import limited, minutes, person
from hub.web.render import done, render
from hub.words import say

WHY = "a person gives up their seats everywhere"


@pages.get("/account/close", needs=Right.ACCOUNT_OWN)
def close_account(work: Work) -> Response:
    return render("groups/close_account.html", form=Form(schemas.CloseAccountSchema()))


@pages.post("/account/close", needs=Right.ACCOUNT_OWN, because=WHY)
@limited("password", times=10, within=minutes(15), by=person)
def send_close_account(work: Work) -> Response:
    form = Form.sent(schemas.CloseAccountSchema())
    with form.answering():
        seats.leave_the_hub(work, **form.data)
        cookies.forget()
        return done(say("Your account is closed. Thank you for your help."), url_for("accounts.sign_in"))
    return render("groups/close_account.html", form=form)
