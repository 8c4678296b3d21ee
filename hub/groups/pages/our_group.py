"""A group's own page: who is in it, who is invited, and its crews."""

from __future__ import annotations

from uuid import UUID

from flask import url_for
from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.groups import actions, invitations, queries, schemas, seats
from hub.groups.pages.blueprint import pages
from hub.groups.role_words import BANDS, ROLES
from hub.rights.policy import may
from hub.rights.right import Right
from hub.rights.scope import Role
from hub.web.forms import Form
from hub.web.limits import limited, minutes, person
from hub.web.render import done, render
from hub.words import say


@pages.get("/our-group", needs=Right.GROUP_READ)
def our_group(work: Work) -> Response:
    group = queries.my_group(work)
    leads = may(work.scope, Right.GROUP_MANAGE)
    return render(
        "groups/our_group.html",
        group=group,
        bank=queries.bank_of(work, group),
        members=queries.seats(work, group_id=group.id),
        invited=queries.open_invitations(work, group_id=group.id) if leads else [],
        crews=queries.crews(work),
        leads=leads,
        roles=ROLES,
        bands={band.value: words for band, words in BANDS.items()},
        me=work.scope.person_id,
    )


@pages.get("/our-group/invite", needs=Right.GROUP_MANAGE)
def invite(work: Work) -> Response:
    form = Form(schemas.InviteSchema(), {"role": Role.MEMBER})
    return render("groups/invite.html", form=form, group=queries.my_group(work))


@pages.post("/our-group/invite", needs=Right.GROUP_MANAGE)
@limited("invite", times=30, within=minutes(60), by=person)
def send_invite(work: Work) -> Response:
    form = Form.sent(schemas.InviteSchema())
    with form.answering():
        invitations.invite_to_group(work, **form.data)
        return done(
            say("A letter is on its way to {email}.", email=form.data["email"]), url_for(".our_group")
        )
    return render("groups/invite.html", form=form, group=queries.my_group(work))


@pages.post("/our-group/invitations/<uuid:invitation_id>/withdraw", needs=Right.GROUP_MANAGE)
def withdraw_invitation(work: Work, invitation_id: UUID) -> Response:
    invitations.withdraw(work, invitation_id=invitation_id)
    return done(say("The invitation is withdrawn; its link works no more."), url_for(".our_group"))


@pages.post("/our-group/seats/<uuid:seat_id>/make/<any(lead, member):role>", needs=Right.GROUP_MANAGE)
def change_role(work: Work, seat_id: UUID, role: str) -> Response:
    held = seats.change_role(work, seat_id=seat_id, role=Role(role))
    return done(say("The role is now: {role}.", role=ROLES[held.role]), url_for(".our_group"))


@pages.get("/our-group/seats/<uuid:seat_id>/end", needs=Right.GROUP_MANAGE)
def ask_end_seat(work: Work, seat_id: UUID) -> Response:
    held, member = queries.get_near(work, seat_id)
    return render("groups/end_seat.html", held=held, member=member, back=url_for(".our_group"))


@pages.post("/our-group/seats/<uuid:seat_id>/end", needs=Right.GROUP_MANAGE)
def end_seat(work: Work, seat_id: UUID) -> Response:
    seats.end_seat(work, seat_id=seat_id)
    return done(say("That seat has ended."), url_for(".our_group"))


@pages.get("/our-group/leave", needs=Right.GROUP_READ)
def ask_leave(work: Work) -> Response:
    return render("groups/leave.html", group=queries.my_group(work))


@pages.post("/our-group/leave", needs=Right.GROUP_READ)
def leave(work: Work) -> Response:
    seats.leave(work)
    return done(say("You have left the group."), url_for("accounts.account"))


@pages.get("/our-group/about", needs=Right.GROUP_MANAGE)
def about_group(work: Work) -> Response:
    group = queries.my_group(work)
    return render("groups/about_group.html", form=Form(schemas.GroupWordsSchema(), group), group=group)


@pages.post("/our-group/about", needs=Right.GROUP_MANAGE)
def send_about_group(work: Work) -> Response:
    form = Form.sent(schemas.GroupWordsSchema())
    with form.answering():
        actions.describe_group(work, **form.data)
        return done(say("What your group says of itself is saved."), url_for(".our_group"))
    return render("groups/about_group.html", form=form, group=queries.my_group(work))
