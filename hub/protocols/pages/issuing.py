"""Issue a sheet, draw it up again, take it back."""

from __future__ import annotations

from uuid import UUID

from flask import url_for
from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.protocols import actions, listed, queries
from hub.protocols.pages.blueprint import pages
from hub.protocols.schemas import ReasonSchema
from hub.rights.right import Right
from hub.web.forms import Form
from hub.web.render import done, render
from hub.words import say


@pages.post("/adoptions/<uuid:adoption_id>/populations/<uuid:population_id>/sheet", needs=Right.SHEET_ISSUE)
def issue(work: Work, adoption_id: UUID, population_id: UUID) -> Response:
    before = queries.current_sheet(work, adoption_id, population_id)
    issued = actions.issue(work, adoption_id=adoption_id, population_id=population_id)
    if before is not None and before.id == issued.id:
        words = say("Nothing has changed: sheet {number} still holds.", number=issued.number)
    else:
        words = say("Sheet {number} is issued.", number=issued.number)
    return done(words, url_for(".sheet", sheet_id=issued.id))


@pages.get("/sheets/<uuid:sheet_id>/withdraw", needs=Right.RULE_OVERRIDE)
def withdraw(work: Work, sheet_id: UUID) -> Response:
    return asking(work, sheet_id, Form(ReasonSchema()))


@pages.post("/sheets/<uuid:sheet_id>/withdraw", needs=Right.RULE_OVERRIDE)
def send_withdraw(work: Work, sheet_id: UUID) -> Response:
    form = Form.sent(ReasonSchema())
    with form.answering():
        issued = actions.withdraw(work, sheet_id=sheet_id, **form.data)
        words = say("Sheet {number} is withdrawn. Its group must not use it any more.", number=issued.number)
        return done(words, url_for(".sheet", sheet_id=sheet_id))
    return asking(work, sheet_id, form)


def asking(work: Work, sheet_id: UUID, form: Form) -> Response:
    issued = queries.get_sheet(work, sheet_id)
    return render("protocols/withdraw.html", issued=issued, around=listed.around(work, issued), form=form)
