"""Signing in and out, one's own account, and a new password by mail."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from urllib.parse import urlsplit
from uuid import UUID

from flask import redirect, request, url_for
from werkzeug.exceptions import UnprocessableEntity
from werkzeug.wrappers import Response

from hub.accounts import actions, cookies, queries, schemas, tokens
from hub.accounts.own_words import own_words
from hub.accounts.rules import RESET_LASTS
from hub.db.work import Work
from hub.rights.right import Right
from hub.web.caller import caller, house
from hub.web.forms import Form
from hub.web.guard import Pages
from hub.web.limits import limited, minutes, person, sender, sender_and
from hub.web.render import done, notice, render
from hub.words import NotFound, say

pages = Pages("accounts", __name__)


@pages.get("/sign-in", needs=Right.PUBLIC_READ)
def sign_in(work: Work) -> Response:
    if cookies.present():
        return redirect(way_back())
    return render("accounts/sign_in.html", form=Form(schemas.SignInSchema()), way_back=way_back())


@pages.post("/sign-in", needs=Right.PUBLIC_READ)
@limited("sign-in", times=10, within=minutes(15), by=sender_and("email"))
@limited("sign-in of all", times=100, within=minutes(15), by=sender)
def send_sign_in(work: Work) -> Response:
    form = Form.sent(schemas.SignInSchema())
    with form.answering(), refusals_noted(work):
        token = actions.open_session(work, **form.data, device=cookies.device())
        cookies.begin(token)
        return redirect(way_back(), code=303)
    return render("accounts/sign_in.html", form=form, way_back=way_back())


@contextmanager
def refusals_noted(work: Work) -> Iterator[None]:
    """A refused sign-in leaves its trace, though the page’s own work is undone."""
    try:
        yield
    except actions.SignInRefused as refusal:
        work.db.rollback()
        with house().work(work.scope) as apart:
            actions.note_refusal(apart, person_id=refusal.person_id)
            apart.db.commit()
        raise


def way_back() -> str:
    """The page that was wanted before signing in: a path of this hub, never an address elsewhere."""
    wanted = request.values.get("next", "").replace("\\", "/")
    parts = urlsplit(wanted)
    own = wanted.startswith("/") and not wanted.startswith("//") and not parts.netloc and wanted.isprintable()
    return wanted if own else "/"


@pages.post("/sign-out", needs=Right.ACCOUNT_OWN)
def sign_out(work: Work) -> Response:
    present = cookies.present()
    if present and present.sign_in_id:
        actions.end_session(work, sign_in_id=present.sign_in_id)
    cookies.forget()
    return done(say("You are signed out."), url_for(".sign_in"))


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
        present=this_sign_in(),
    )


@pages.post("/account/sessions/<uuid:sign_in_id>/end", needs=Right.ACCOUNT_OWN)
def end_session(work: Work, sign_in_id: UUID) -> Response:
    actions.end_session(work, sign_in_id=sign_in_id)
    return done(say("That session has ended."), url_for(".account"))


@pages.post("/account/sessions/end-others", needs=Right.ACCOUNT_OWN)
def end_other_sessions(work: Work) -> Response:
    actions.end_other_sessions(work, keep=this_sign_in())
    return done(say("All your other sessions have ended."), url_for(".account"))


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
        return done(say("Your password is changed. Your other sessions have ended."), url_for(".account"))
    return render("accounts/password.html", form=form)


@pages.get("/account/keys", needs=Right.ACCOUNT_OWN)
def keys(work: Work) -> Response:
    return render("accounts/keys.html", form=Form(schemas.TokenSchema(), {"days": 90}))


@pages.post("/account/keys", needs=Right.ACCOUNT_OWN)
@limited("keys", times=20, within=minutes(60), by=person)
def make_key(work: Work) -> Response:
    form, present = Form.sent(schemas.TokenSchema()), cookies.present()
    with form.answering():
        token = tokens.make_token(work, seat_id=present.seat_id if present else None, **form.data)
        return render("accounts/key_made.html", token=token, name=form.data["name"])
    return render("accounts/keys.html", form=form)


@pages.post("/account/keys/<uuid:token_id>/end", needs=Right.ACCOUNT_OWN)
def end_key(work: Work, token_id: UUID) -> Response:
    tokens.end_token(work, token_id=token_id)
    return done(say("That key has ended."), url_for(".account"))


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
