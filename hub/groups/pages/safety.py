"""How one of the bank's people signs in, for the day their phone or laptop is lost."""

from __future__ import annotations

from uuid import UUID

from flask import url_for
from werkzeug.wrappers import Response

from hub.accounts.queries import factor_of, sign_ins_of
from hub.db.work import Work
from hub.groups import safety, schemas
from hub.groups.pages.blueprint import pages
from hub.rights.right import Right
from hub.web.forms import Form
from hub.web.limits import limited, minutes, person
from hub.web.render import done, render
from hub.words import say

WHY = "a person’s seats elsewhere decide who may care for their account"


@pages.get("/seats/<uuid:seat_id>/sign-in", needs=Right.GROUP_APPROVE, because=WHY)
def sign_in_of(work: Work, seat_id: UUID) -> Response:
    return shown(work, seat_id, Form(schemas.ReasonSchema()))


def shown(work: Work, seat_id: UUID, form: Form) -> Response:
    held, member = safety.get_in_care(work, seat_id)
    return render(
        "groups/sign_in_of.html",
        form=form,
        held=held,
        member=member,
        factor=factor_of(work, member.id),
        sessions=len(sign_ins_of(work, member.id)),
        me=work.scope.person_id,
    )


@pages.post("/seats/<uuid:seat_id>/sessions/end", needs=Right.GROUP_APPROVE, because=WHY)
def end_sessions_of(work: Work, seat_id: UUID) -> Response:
    safety.end_sessions(work, seat_id=seat_id)
    return done(say("All their sessions have ended."), url_for(".sign_in_of", seat_id=seat_id))


@pages.post("/seats/<uuid:seat_id>/second-step/off", needs=Right.GROUP_APPROVE, because=WHY)
@limited("second step off", times=20, within=minutes(60), by=person)
def take_off_second_step(work: Work, seat_id: UUID) -> Response:
    form = Form.sent(schemas.ReasonSchema())
    with form.answering():
        safety.take_off_second_step(work, seat_id=seat_id, **form.data)
        words = say("Their second step is off and their sessions have ended. They were told by mail.")
        return done(words, url_for(".sign_in_of", seat_id=seat_id))
    return shown(work, seat_id, form)
