"""A curator consents to collecting from one population, within what the rules allow, or takes that back."""

from __future__ import annotations

from uuid import UUID

from flask import url_for
from werkzeug.wrappers import Response

from hub.adoptions import queries as adoptions
from hub.db.work import Work
from hub.protocols import actions, queries
from hub.protocols.pages.blueprint import pages
from hub.protocols.schemas import ReasonSchema, SignOffSchema
from hub.rights.right import Right
from hub.sites import queries as sites
from hub.taxa import queries as taxa
from hub.web.forms import Form
from hub.web.render import done, render
from hub.words import say

PLACE = "/adoptions/<uuid:adoption_id>/populations/<uuid:population_id>/consent"


@pages.get(PLACE, needs=Right.RULE_OVERRIDE)
def consent(work: Work, adoption_id: UUID, population_id: UUID) -> Response:
    return asking(work, adoption_id, population_id, Form(SignOffSchema()))


@pages.post(PLACE, needs=Right.RULE_OVERRIDE)
def send_consent(work: Work, adoption_id: UUID, population_id: UUID) -> Response:
    form = Form.sent(SignOffSchema())
    with form.answering():
        share, reason = float(form.data["share"]) / 100, form.data["reason"]
        actions.sign_off(
            work, adoption_id=adoption_id, population_id=population_id, share=share, reason=reason
        )
        issued = actions.issue(work, adoption_id=adoption_id, population_id=population_id)
        words = say("You have consented. Sheet {number} says what follows from it.", number=issued.number)
        return done(words, url_for(".sheet", sheet_id=issued.id))
    return asking(work, adoption_id, population_id, form)


def asking(work: Work, adoption_id: UUID, population_id: UUID, form: Form) -> Response:
    adoption, population = adoptions.get(work, adoption_id), sites.get_population(work, population_id)
    sheet = actions.with_consent(work, adoption, population)
    return render(
        "protocols/consent.html",
        form=form,
        adoption=adoption,
        population=population,
        taxon=taxa.get(work, adoption.taxon_id),
        sheet=sheet,
        bound=sheet.headline.season_share,
        given=queries.consents(work, adoption_id, population_id),
    )


@pages.get("/consents/<uuid:consent_id>/take-back", needs=Right.RULE_OVERRIDE)
def take_back(work: Work, consent_id: UUID) -> Response:
    return taking_back(work, consent_id, Form(ReasonSchema()))


@pages.post("/consents/<uuid:consent_id>/take-back", needs=Right.RULE_OVERRIDE)
def send_take_back(work: Work, consent_id: UUID) -> Response:
    form = Form.sent(ReasonSchema())
    given = queries.get_consent(work, consent_id)
    with form.answering():
        actions.take_back(work, consent_id=consent_id, **form.data)
        place = url_for(".consent", adoption_id=given.adoption_id, population_id=given.population_id)
        return done(say("The consent is taken back; its sheet follows within a minute."), place)
    return taking_back(work, consent_id, form)


def taking_back(work: Work, consent_id: UUID, form: Form) -> Response:
    return render("protocols/take_back.html", form=form, given=queries.get_consent(work, consent_id))
