"""Say how rare a species is: ranks, Red List categories and legal lists."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from flask import url_for
from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.rights.right import Right
from hub.taxa import actions, queries, schemas
from hub.taxa.models import Taxon
from hub.taxa.pages.blueprint import pages
from hub.taxa.trait_words import KINDS, offered
from hub.web.forms import Form
from hub.web.render import done, render
from hub.words import say


@pages.get("/species/<uuid:taxon_id>/standings", needs=Right.SPECIES_EDIT)
def edit_standings(work: Work, taxon_id: UUID) -> Response:
    taxon = queries.get(work, taxon_id)
    given = {"version": taxon.version, "standings": queries.standings(work, taxon_id)}
    return standings_form(Form(schemas.StandingsSchema(), given), taxon)


@pages.post("/species/<uuid:taxon_id>/standings", needs=Right.SPECIES_EDIT)
def send_standings(work: Work, taxon_id: UUID) -> Response:
    taxon = queries.get(work, taxon_id)
    form = Form.sent(schemas.StandingsSchema())
    with form.answering():
        actions.set_standings(work, taxon_id=taxon_id, **given_by(form.data))
        words = say("Saved. Its care class is now: {care}.", care=taxon.care_class.words)
        return done(words, url_for(".show", taxon_id=taxon_id))
    return standings_form(form, taxon)


def given_by(data: dict[str, Any]) -> dict[str, Any]:
    return {**data, "standings": [actions.StandingGiven(**row) for row in data["standings"]]}


def standings_form(form: Form, taxon: Taxon) -> Response:
    return render("taxa/standings_form.html", form=form, taxon=taxon, kinds=offered(KINDS))
