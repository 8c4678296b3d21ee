"""Say in which ecoregions of one's own region a species grows."""

from __future__ import annotations

from uuid import UUID

from flask import url_for
from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.rights.right import Right
from hub.taxa import actions, queries, schemas
from hub.taxa.models import Taxon
from hub.taxa.pages.blueprint import pages
from hub.taxa.pages.region_map import region_map
from hub.web.forms import Form
from hub.web.render import done, render
from hub.words import say


@pages.get("/species/<uuid:taxon_id>/ecoregions", needs=Right.SPECIES_EDIT)
def edit_ecoregions(work: Work, taxon_id: UUID) -> Response:
    taxon = queries.get(work, taxon_id)
    grows = [each.id for each in queries.ecoregions_of(work, taxon_id)]
    form = Form(schemas.EcoregionsSchema(), {"version": taxon.version, "ecoregion_ids": grows})
    return ecoregions_form(work, form, taxon)


@pages.post("/species/<uuid:taxon_id>/ecoregions", needs=Right.SPECIES_EDIT)
def send_ecoregions(work: Work, taxon_id: UUID) -> Response:
    taxon = queries.get(work, taxon_id)
    form = Form.sent(schemas.EcoregionsSchema())
    with form.answering():
        actions.set_ecoregions(work, taxon_id=taxon_id, **form.data)
        return done(say("The ecoregions are saved."), url_for(".show", taxon_id=taxon_id))
    return ecoregions_form(work, form, taxon)


def ecoregions_form(work: Work, form: Form, taxon: Taxon) -> Response:
    region_id = work.scope.region_id
    offered = queries.ecoregions(work, region_id) if region_id else []
    return render(
        "taxa/ecoregions_form.html",
        form=form,
        taxon=taxon,
        offered=[(str(each.id), f"{each.code} {each.name}") for each in offered],
        map=region_map(work, region_id, [each.id for each in queries.ecoregions_of(work, taxon.id)]),
    )
