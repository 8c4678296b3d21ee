"""The lots of an accession as one table: what each is in and where it is kept, all noted together."""

from __future__ import annotations

from uuid import UUID

from flask import url_for
from werkzeug.wrappers import Response

from hub.accessions import actions, queries
from hub.accessions.pages.blueprint import pages
from hub.accessions.schemas import PlacesSchema
from hub.db.work import Work
from hub.rights.right import Right
from hub.taxa.queries import get as get_taxon
from hub.web.forms import Form
from hub.web.render import done, render
from hub.words import say, say_n


@pages.get("/accessions/<uuid:accession_id>/places", needs=Right.LOT_WORK)
def places(work: Work, accession_id: UUID) -> Response:
    return shown(work, accession_id)


def shown(work: Work, accession_id: UUID, form: Form | None = None) -> Response:
    found = queries.get(work, accession_id)
    lots = queries.lots_of(work, accession_id)
    lines = [{"lot_id": lot.id, "container": lot.container, "place": lot.place} for lot in lots]
    return render(
        "accessions/places.html",
        form=form or Form(PlacesSchema(), {"lots": lines}),
        accession=found,
        taxon=get_taxon(work, found.taxon_id),
        lots=lots,
    )


@pages.post("/accessions/<uuid:accession_id>/places", needs=Right.LOT_WORK)
def put_all(work: Work, accession_id: UUID) -> Response:
    queries.get(work, accession_id)
    form = Form.sent(PlacesSchema())
    with form.answering():
        n = actions.place_lots(work, accession_id=accession_id, **form.data)
        changed = say_n("{n} lot has a new place.", "{n} lots have a new place.", n=n)
        words = changed if n else say("Nothing was changed.")
        return done(words, url_for(".accession", accession_id=accession_id))
    return shown(work, accession_id, form)
