"""Signing in, with the second step for those who have one, and signing out."""

from __future__ import annotations

from datetime import timedelta
from urllib.parse import urlsplit

from flask import redirect, request, url_for
from werkzeug.wrappers import Response

from hub.accounts import actions, cookies, factors, queries, schemas
from hub.accounts.models import Person
from hub.accounts.pages.blueprint import pages
from hub.accounts.pages.patience import hold, hold_code, refusals_noted
from hub.accounts.rules import SIGN_IN_TRIES
from hub.accounts.secrets import digest_of
from hub.db.limits import key_of
from hub.db.work import Work
from hub.rights.right import Right
from hub.web.forms import Form
from hub.web.limits import limited, minutes, sender, sender_and
from hub.web.render import done, notice, render
from hub.words import say

CODE_WAITS = timedelta(minutes=10)
TOO_MANY = say(
    "There were too many failed tries with this address, so its password opens the hub no more. Choose a new "
    "one with the link below."
)
BEGIN_AGAIN = say("Please type your password again; the code must follow within ten minutes.")


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
        email = form.data["email"].lower()
        hold(work, SIGN_IN_TRIES, email, known=cookies.knows(known_as(work, email)), too_many=TOO_MANY)
        person = actions.check_sign_in(work, **form.data)
        if queries.factor_of(work, person.id):
            cookies.wait_for_code(person.id, digest_of(person.password_hash), work.now + CODE_WAITS)
            return redirect(url_for(".code", next=way_back()), code=303)
        return let_in(work, person, factor=False)
    return render("accounts/sign_in.html", form=form, way_back=way_back())


@pages.get("/sign-in/code", needs=Right.PUBLIC_READ)
def code(work: Work) -> Response:
    if cookies.halfway(work.now) is None:
        return from_the_start()
    return render("accounts/code.html", form=Form(schemas.CodeSchema()), way_back=way_back())


@pages.post("/sign-in/code", needs=Right.PUBLIC_READ)
@limited("code", times=30, within=minutes(15), by=sender)
def send_code(work: Work) -> Response:
    form, halfway = Form.sent(schemas.CodeSchema()), cookies.halfway(work.now)
    if halfway is None:
        return from_the_start()
    with form.answering(), refusals_noted(work):
        person_id, mark = halfway
        hold_code(work, person_id, form.data["code"])
        person = queries.get_person(work, person_id)
        if mark != digest_of(person.password_hash):
            return from_the_start()
        factors.show(work, person=person, **form.data)
        return let_in(work, person, factor=True)
    return render("accounts/code.html", form=form, way_back=way_back())


def let_in(work: Work, person: Person, *, factor: bool) -> Response:
    """Begin the session of somebody who has shown all that was asked."""
    token = actions.begin_session(
        work, person=person, device=cookies.device(), factor_at=work.now if factor else None
    )
    cookies.begin(token, known_as(work, person.email))
    return redirect(way_back(), code=303)


def known_as(work: Work, email: str) -> str:
    """The digest under which a browser is known to the owner of an account."""
    return key_of(work.settings, "known browser", email)


def from_the_start() -> Response:
    notice(BEGIN_AGAIN, "problem")
    return redirect(url_for(".sign_in", next=way_back()), code=303)


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
