"""Add a species, and change what is known of it."""

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
from hub.taxa.pages.months import month_names
from hub.taxa.rules import FruitType, Hazard, LifeForm, StorageBehaviour
from hub.taxa.trait_words import (
    ANSWERS,
    DIFFICULTIES,
    EVIDENCE,
    NONE_KNOWN,
    SENSITIVITIES,
    offered,
    offered_list,
)
from hub.web.forms import Form
from hub.web.render import done, render
from hub.words import say


@pages.get("/species/new", needs=Right.SPECIES_EDIT)
def new_species(work: Work) -> Response:
    return species_form(Form(schemas.SpeciesSchema()))


@pages.post("/species/new", needs=Right.SPECIES_EDIT)
def send_new_species(work: Work) -> Response:
    form = Form.sent(schemas.SpeciesSchema())
    with form.answering():
        given = {name: value for name, value in form.data.items() if name != "version"}
        taxon = actions.add(work, **given)
        words = say("{name} is here now. Next, say how rare it is.", name=taxon.canonical)
        return done(words, url_for(".edit_standings", taxon_id=taxon.id))
    return species_form(form)


@pages.get("/species/<uuid:taxon_id>/edit", needs=Right.SPECIES_EDIT)
def edit_species(work: Work, taxon_id: UUID) -> Response:
    taxon = queries.get(work, taxon_id)
    return species_form(Form(schemas.SpeciesSchema(), schemas.form_of(taxon)), taxon)


@pages.post("/species/<uuid:taxon_id>/edit", needs=Right.SPECIES_EDIT)
def send_edit_species(work: Work, taxon_id: UUID) -> Response:
    taxon = queries.get(work, taxon_id)
    form = Form.sent(schemas.SpeciesSchema())
    with form.answering():
        actions.change(work, taxon_id=taxon_id, **form.data)
        return done(say("The species is saved."), url_for(".show", taxon_id=taxon_id))
    return species_form(form, taxon)


def species_form(form: Form, taxon: Taxon | None = None) -> Response:
    return render("taxa/species_form.html", form=form, taxon=taxon, **choices())


def choices() -> dict[str, Any]:
    return {
        "life_forms": offered_list(LifeForm),
        "fruit_types": offered_list(FruitType),
        "storages": offered_list(StorageBehaviour),
        "hazards": [NONE_KNOWN, *offered_list(Hazard)],
        "answers": ANSWERS,
        "evidence": offered(EVIDENCE),
        "levels": offered(DIFFICULTIES),
        "sensitivities": offered(SENSITIVITIES),
        "months": month_names(),
    }
