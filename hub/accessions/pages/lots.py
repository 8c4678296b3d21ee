"""One lot: its balance, its ledger with a new entry, and where it is kept."""

from __future__ import annotations

from uuid import UUID

from flask import url_for
from werkzeug.wrappers import Response

from hub.accessions import actions, queries
from hub.accessions.numbers import lot_number
from hub.accessions.pages.blueprint import pages
from hub.accessions.rules import CLOSED, Booking
from hub.accessions.schemas import EntrySchema, PlaceSchema
from hub.db.work import Work
from hub.rights.right import Right
from hub.taxa.queries import get as get_taxon
from hub.web.forms import Form
from hub.web.render import done, render
from hub.words import say, say_n


@pages.get("/lots/<uuid:lot_id>", needs=Right.LOT_READ)
def lot(work: Work, lot_id: UUID) -> Response:
    return shown(work, lot_id)


def shown(work: Work, lot_id: UUID, entry: Form | None = None, place: Form | None = None) -> Response:
    found = queries.get_lot(work, lot_id)
    accession = queries.get(work, found.accession_id)
    entries = queries.entries_of(work, lot_id)
    problems = next((each for each in (entry, place) if each and each.problems), None)
    page = render(
        "accessions/lot.html",
        lot=found,
        number=lot_number(accession.number, found.label),
        accession=accession,
        taxon=get_taxon(work, accession.taxon_id),
        entries=entries,
        estimated=any(each.estimated for each in entries),
        names=queries.names_of(work, [each.by for each in entries]),
        bookings=[(each, each.words) for each in Booking],
        closed=accession.state in CLOSED,
        entry=entry or Form(EntrySchema()),
        place=place or Form(PlaceSchema(), found),
    )
    page.status_code = 422 if problems else 200
    return page


@pages.post("/lots/<uuid:lot_id>/entries", needs=Right.LOT_WORK)
def enter(work: Work, lot_id: UUID) -> Response:
    queries.get_lot(work, lot_id)
    form = Form.sent(EntrySchema())
    with form.answering():
        actions.enter(work, lot_id=lot_id, **form.data)
        left = queries.get_lot(work, lot_id).balance_seeds
        words = say_n("Entered. The lot holds {n} seed now.", "Entered. The lot holds {n} seeds now.", n=left)
        return done(words, url_for(".lot", lot_id=lot_id))
    return shown(work, lot_id, entry=form)


@pages.post("/lots/<uuid:lot_id>/place", needs=Right.LOT_WORK)
def put(work: Work, lot_id: UUID) -> Response:
    queries.get_lot(work, lot_id)
    form = Form.sent(PlaceSchema())
    with form.answering():
        actions.place_lot(work, lot_id=lot_id, **form.data)
        return done(say("The place is noted."), url_for(".lot", lot_id=lot_id))
    return shown(work, lot_id, place=form)
