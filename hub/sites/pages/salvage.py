"""The case of a doomed population: opened with evidence, agreed by the owner, decided by the curator."""

from __future__ import annotations

from uuid import UUID

from flask import url_for
from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.rights.right import Right
from hub.sites import actions, queries, schemas
from hub.sites.pages.blueprint import pages
from hub.sites.pages.papers import keep_paper, paper_download
from hub.sites.rules import Decision, SalvageState
from hub.web.forms import Form
from hub.web.render import done, render
from hub.words import NotFound, say


@pages.get("/populations/<uuid:population_id>/salvage", needs=Right.SITE_EDIT)
def salvage(work: Work, population_id: UUID) -> Response:
    return opening(work, population_id, Form(schemas.SalvageSchema()))


def opening(work: Work, population_id: UUID, form: Form) -> Response:
    found = queries.get_population(work, population_id)
    return render("sites/salvage_form.html", form=form, population=found)


@pages.post("/populations/<uuid:population_id>/salvage", needs=Right.SITE_EDIT)
def send_salvage(work: Work, population_id: UUID) -> Response:
    queries.get_population(work, population_id)
    form = Form.sent(schemas.SalvageSchema())
    with form.answering():
        details = dict(form.data)
        key = keep_paper(work, details.pop("evidence_file"), "salvage")
        actions.ask_salvage(work, population_id=population_id, evidence_file=key, **details)
        words = say("The case is open. It needs the owner’s and the curator’s word.")
        return done(words, url_for(".population", population_id=population_id))
    return opening(work, population_id, form)


@pages.get("/salvage/<uuid:salvage_id>/agree", needs=Right.SITE_EDIT)
def agree_salvage(work: Work, salvage_id: UUID) -> Response:
    return deciding(work, "salvage_agree", salvage_id, Form(schemas.AgreeSchema(), {"on": work.today}))


def deciding(work: Work, template: str, salvage_id: UUID, form: Form) -> Response:
    case = queries.get_salvage(work, salvage_id)
    found = queries.get_population(work, case.population_id)
    return render(f"sites/{template}.html", form=form, case=case, population=found)


@pages.post("/salvage/<uuid:salvage_id>/agree", needs=Right.SITE_EDIT)
def send_agree_salvage(work: Work, salvage_id: UUID) -> Response:
    form = Form.sent(schemas.AgreeSchema())
    with form.answering():
        case = actions.agree_salvage(work, salvage_id=salvage_id, **form.data)
        words = say("The owner’s agreement is noted.")
        return done(words, url_for(".population", population_id=case.population_id))
    return deciding(work, "salvage_agree", salvage_id, form)


@pages.get("/salvage/<uuid:salvage_id>/decide", needs=Right.SALVAGE_DECIDE)
def decide_salvage(work: Work, salvage_id: UUID) -> Response:
    return deciding(work, "salvage_decide", salvage_id, Form(schemas.DecideSchema()))


@pages.post("/salvage/<uuid:salvage_id>/decide", needs=Right.SALVAGE_DECIDE)
def send_decide_salvage(work: Work, salvage_id: UUID) -> Response:
    form = Form.sent(schemas.DecideSchema())
    with form.answering():
        approve = form.data["decision"] is Decision.APPROVE
        reason = form.data["reason"]
        case = actions.decide_salvage(work, salvage_id=salvage_id, approve=approve, reason=reason)
        words = {
            SalvageState.APPROVED: say("The salvage is approved."),
            SalvageState.ASKED: say("Your approval is noted. It counts once the owner agrees."),
            SalvageState.REFUSED: say("The case is refused: the usual limits hold."),
        }[case.state]
        return done(words, url_for(".population", population_id=case.population_id))
    return deciding(work, "salvage_decide", salvage_id, form)


@pages.get("/salvage/<uuid:salvage_id>/evidence", needs=Right.SITE_READ)
def evidence(work: Work, salvage_id: UUID) -> Response:
    case = queries.get_salvage(work, salvage_id)
    if not case.evidence_file:
        raise NotFound(salvage_id)
    code = queries.get_population(work, case.population_id).code
    return paper_download(work, case.evidence_file, f"Evidence, {code}")
