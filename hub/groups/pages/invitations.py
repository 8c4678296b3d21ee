"""An invitation taken: with the account that is signed in, or with a new one."""

from __future__ import annotations

from werkzeug.wrappers import Response

from hub.accounts import cookies
from hub.accounts.actions import begin_session, take_seat
from hub.accounts.queries import find_person
from hub.db.work import Work
from hub.groups import invitations, queries, schemas
from hub.groups.models import Invitation
from hub.groups.pages.blueprint import pages
from hub.groups.role_words import seat_words
from hub.rights.right import Right
from hub.web.forms import Form
from hub.web.limits import limited, minutes, sender
from hub.web.render import done, render
from hub.words import Words, say

WHY = "an invitation is taken from outside any seat"


@pages.get("/invitations/<token>", needs=Right.PUBLIC_READ, because=WHY)
@limited("invitation", times=60, within=minutes(30), by=sender, reads=True)
def invitation(work: Work, token: str) -> Response:
    invited = queries.find_invitation(work, token)
    if invited is None:
        return used_up()
    return shown(work, token, invited, Form(schemas.NewAccountSchema()))


@pages.post("/invitations/<token>", needs=Right.PUBLIC_READ, because=WHY)
@limited("invitation", times=60, within=minutes(30), by=sender)
def accept_as_new(work: Work, token: str) -> Response:
    invited = queries.find_invitation(work, token)
    if invited is None:
        return used_up()
    form = Form.sent(schemas.NewAccountSchema())
    with form.answering():
        names = [*queries.names_around(work, None), queries.place_name(work, invited) or ""]
        person = invitations.accept_as_new(work, token=token, **form.data, own_words=names)
        cookies.begin(begin_session(work, person=person, device=cookies.device()))
        return welcome(work, invited)
    return shown(work, token, queries.find_invitation(work, token) or invited, form)


@pages.post("/invitations/<token>/accept", needs=Right.ACCOUNT_OWN, because=WHY)
@limited("invitation", times=60, within=minutes(30), by=sender)
def accept(work: Work, token: str) -> Response:
    invited = queries.find_invitation(work, token)
    if invited is None:
        return used_up()
    seat = invitations.accept(work, token=token)
    present = cookies.present()
    if present:
        take_seat(work, sign_in_id=present.sign_in_id, seat_id=seat.id)
    return welcome(work, invited)


def shown(work: Work, token: str, invited: Invitation, form: Form) -> Response:
    return render(
        "groups/invitation.html",
        form=form,
        token=token,
        seat=words_for(work, invited),
        email=invited.email,
        ends_at=invited.ends_at,
        has_account=find_person(work, email=invited.email) is not None,
    )


def words_for(work: Work, invited: Invitation) -> Words:
    return seat_words(invited.role, queries.place_name(work, invited))


def welcome(work: Work, invited: Invitation) -> Response:
    return done(say("Welcome. You are now: {seat}.", seat=words_for(work, invited)), "/")


def used_up() -> Response:
    """A dead link tells nothing about what it once was for."""
    page = render("groups/invitation_over.html")
    page.status_code = 410
    return page
