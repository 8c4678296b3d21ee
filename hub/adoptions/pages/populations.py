"""Which populations an adoption collects from: held and let go."""

from __future__ import annotations

from uuid import UUID

from flask import url_for
from werkzeug.wrappers import Response

from hub.adoptions import actions, queries
from hub.adoptions.pages.adoption import shown
from hub.adoptions.pages.blueprint import pages
from hub.adoptions.schemas import HoldSchema
from hub.db.work import Work
from hub.rights.right import Right
from hub.sites import queries as sites
from hub.taxa import queries as taxa
from hub.web.forms import Form
from hub.web.render import done, render
from hub.words import NotFound, say


@pages.post("/adoptions/<uuid:adoption_id>/populations", needs=Right.SITE_EDIT)
def hold(work: Work, adoption_id: UUID) -> Response:
    queries.get(work, adoption_id)
    form = Form.sent(HoldSchema())
    with form.answering():
        chosen = sites.get_population(work, form.data["population_id"])
        actions.hold_population(work, adoption_id=adoption_id, population_id=chosen.id)
        words = say("{code} is in. Its site is open to the group.", code=chosen.code)
        return done(words, url_for(".adoption", adoption_id=adoption_id))
    return shown(work, adoption_id, form)


LET_GO = "/adoptions/<uuid:adoption_id>/populations/<uuid:population_id>/let-go"


@pages.get(LET_GO, needs=Right.SITE_EDIT)
def ask_let_go(work: Work, adoption_id: UUID, population_id: UUID) -> Response:
    found = queries.get(work, adoption_id)
    held = {population.id: population for population in queries.populations_held(work, adoption_id)}
    if population_id not in held:
        raise NotFound(population_id)
    return render(
        "adoptions/let_go.html",
        adoption=found,
        population=held[population_id],
        taxon=taxa.get(work, found.taxon_id),
    )


@pages.post(LET_GO, needs=Right.SITE_EDIT)
def let_go(work: Work, adoption_id: UUID, population_id: UUID) -> Response:
    actions.let_go_population(work, adoption_id=adoption_id, population_id=population_id)
    words = say("This adoption collects there no more.")
    return done(words, url_for(".adoption", adoption_id=adoption_id))
