"""A new password by mail."""

from __future__ import annotations

from flask import redirect, url_for
from werkzeug.wrappers import Response

from hub.accounts import actions, cookies, queries, schemas
from hub.accounts.own_words import own_words
from hub.accounts.pages.blueprint import pages
from hub.accounts.rules import RESET_LASTS
from hub.db.work import Work
from hub.rights.right import Right
from hub.web.forms import Form
from hub.web.limits import limited, minutes, sender, sender_and
from hub.web.render import done, notice, render
from hub.words import say


@pages.get("/reset", needs=Right.PUBLIC_READ)
def ask_reset(work: Work) -> Response:
    return render("accounts/ask_reset.html", form=Form(schemas.ResetSchema()))


@pages.post("/reset", needs=Right.PUBLIC_READ)
@limited("reset", times=3, within=minutes(30), by=sender_and("email"))
@limited("reset of all", times=20, within=minutes(30), by=sender)
def send_reset(work: Work) -> Response:
    form = Form.sent(schemas.ResetSchema())
    with form.answering():
        actions.ask_reset(work, **form.data)
        minutes = RESET_LASTS.seconds // 60
        words = say(
            "If this address has an account, a letter with a link is on its way. It works for {n} minutes.",
            n=minutes,
        )
        return done(words, url_for(".sign_in"))
    return render("accounts/ask_reset.html", form=form)


@pages.get("/reset/<token>", needs=Right.PUBLIC_READ)
@limited("reset link", times=60, within=minutes(30), by=sender, reads=True)
def new_password(work: Work, token: str) -> Response:
    if queries.open_link(work, token) is None:
        return gone()
    return render("accounts/new_password.html", form=Form(schemas.NewPasswordSchema()), token=token)


@pages.post("/reset/<token>", needs=Right.PUBLIC_READ, because="names a password may not be made of")
@limited("reset link", times=60, within=minutes(30), by=sender)
def send_new_password(work: Work, token: str) -> Response:
    link = queries.open_link(work, token)
    if link is None:
        return gone()
    form = Form.sent(schemas.NewPasswordSchema())
    with form.answering():
        names = own_words(work, link.person_id)
        actions.use_reset(work, token=token, **form.data, own_words=names)
        cookies.forget()
        return done(say("Your new password is set. Please sign in with it."), url_for(".sign_in"))
    return render("accounts/new_password.html", form=form, token=token)


def gone() -> Response:
    """A link that was used, replaced or has run out leads to asking for a new one."""
    notice(say("This link works no more. Ask for a new one here."), "problem")
    return redirect(url_for(".ask_reset"), code=303)
