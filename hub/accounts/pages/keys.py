"""Keys for programs: made and ended here."""

from __future__ import annotations

from uuid import UUID

from flask import url_for
from werkzeug.wrappers import Response

from hub.accounts import cookies, factors, schemas, tokens
from hub.accounts.pages.account import this_sign_in
from hub.accounts.pages.blueprint import pages
from hub.accounts.pages.patience import hold_code, refusals_noted
from hub.db.work import Work
from hub.rights.right import Right
from hub.web.forms import Form
from hub.web.limits import limited, minutes, person
from hub.web.render import done, render
from hub.words import say


@pages.get("/account/keys", needs=Right.ACCOUNT_OWN)
def keys(work: Work) -> Response:
    return shown(work, Form(schemas.TokenSchema(), {"days": 90}))


def shown(work: Work, form: Form) -> Response:
    asks_code = factors.asks_code(work, sign_in_id=this_sign_in())
    return render("accounts/keys.html", form=form, asks_code=asks_code)


@pages.post("/account/keys", needs=Right.ACCOUNT_OWN)
@limited("keys", times=20, within=minutes(60), by=person)
def make_key(work: Work) -> Response:
    form, present = Form.sent(schemas.TokenSchema()), cookies.present()
    with form.answering(), refusals_noted(work):
        hold_code(work, work.scope.person_id, form.data["code"])
        seat_id = present.seat_id if present else None
        token = tokens.make_token(work, seat_id=seat_id, sign_in_id=this_sign_in(), **form.data)
        return render("accounts/key_made.html", token=token, name=form.data["name"])
    return shown(work, form)


@pages.post("/account/keys/<uuid:token_id>/end", needs=Right.ACCOUNT_OWN)
def end_key(work: Work, token_id: UUID) -> Response:
    tokens.end_token(work, token_id=token_id)
    return done(say("That key has ended."), url_for(".account"))
