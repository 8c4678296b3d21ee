"""One's own account: who one is, where one is signed in, one's password, and which seat one works in."""

from __future__ import annotations

from uuid import UUID

from flask import url_for
from werkzeug.exceptions import UnprocessableEntity
from werkzeug.wrappers import Response

from hub.accounts import actions, cookies, queries, schemas
from hub.accounts.own_words import own_words
from hub.accounts.pages.blueprint import pages
from hub.db.work import Work
from hub.rights.right import Right
from hub.web.caller import caller
from hub.web.forms import Form
from hub.web.limits import limited, minutes, person
from hub.web.render import done, render
from hub.words import NotFound, say


@pages.post("/seat", needs=Right.ACCOUNT_OWN)
def take_seat(work: Work) -> Response:
    form = Form.sent(schemas.SeatSchema())
    with form.answering():
        seat_id = form.data["seat"]
        label = dict(caller().other_seats).get(str(seat_id))
        if label is None:
            raise NotFound(seat_id)
        actions.take_seat(work, sign_in_id=this_sign_in(), seat_id=seat_id)
        return done(say("You now work as: {seat}.", seat=label), "/")
    raise UnprocessableEntity


@pages.get("/account", needs=Right.ACCOUNT_OWN)
def account(work: Work) -> Response:
    return render(
        "accounts/account.html",
        owner=queries.get_person(work),
        sign_ins=queries.my_sign_ins(work),
        keys=queries.my_tokens(work),
        factor=queries.factor_of(work, work.scope.person_id),
        present=this_sign_in(),
    )


@pages.post("/account/sessions/<uuid:sign_in_id>/end", needs=Right.ACCOUNT_OWN)
def end_session(work: Work, sign_in_id: UUID) -> Response:
    actions.end_session(work, sign_in_id=sign_in_id)
    return done(say("That session has ended."), url_for(".account"))


@pages.post("/account/sessions/end-others", needs=Right.ACCOUNT_OWN)
def end_other_sessions(work: Work) -> Response:
    actions.end_other_sessions(work, keep=this_sign_in())
    return done(say("All your other sessions and your keys for programs have ended."), url_for(".account"))


def this_sign_in() -> UUID | None:
    present = cookies.present()
    return present.sign_in_id if present else None


@pages.get("/account/password", needs=Right.ACCOUNT_OWN)
def password(work: Work) -> Response:
    return render("accounts/password.html", form=Form(schemas.ChangePasswordSchema()))


@pages.post("/account/password", needs=Right.ACCOUNT_OWN, because="names a password may not be made of")
@limited("password", times=10, within=minutes(15), by=person)
def send_password(work: Work) -> Response:
    form = Form.sent(schemas.ChangePasswordSchema())
    with form.answering():
        names = own_words(work, work.scope.person_id)
        actions.change_password(work, **form.data, keep=this_sign_in(), own_words=names)
        return done(
            say("Your password is changed. Your other sessions and your keys for programs have ended."),
            url_for(".account"),
        )
    return render("accounts/password.html", form=form)
