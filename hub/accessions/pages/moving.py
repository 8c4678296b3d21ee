"""Move an accession to another state: asked about first, with its reason."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from flask import url_for
from werkzeug.wrappers import Response

from hub.accessions import actions, queries
from hub.accessions.pages.blueprint import pages
from hub.accessions.rules import AccessionState, unplaced
from hub.accessions.schemas import DeaccessionSchema, MoveSchema
from hub.db.work import Work
from hub.rights.right import Right
from hub.taxa.queries import get as get_taxon
from hub.taxa.rules import StorageBehaviour
from hub.web.forms import Form
from hub.web.render import done, render
from hub.words import say

VERBS = {
    "store": AccessionState.STORED,
    "living": AccessionState.LIVING,
    "exhaust": AccessionState.EXHAUSTED,
    "deaccession": AccessionState.DEACCESSIONED,
}
# Seed that can be dried and frozen as it is.
STORABLE = frozenset(
    {StorageBehaviour.ORTHODOX, StorageBehaviour.ORTHODOX_HARD, StorageBehaviour.SHORT_LIVED}
)
PATH = "/accessions/<uuid:accession_id>/<any(store, living, exhaust, deaccession):verb>"


def form_for(verb: str) -> MoveSchema | DeaccessionSchema:
    return DeaccessionSchema() if verb == "deaccession" else MoveSchema()


@pages.get(PATH, needs=Right.LOT_WORK)
def ask_move(work: Work, accession_id: UUID, verb: str) -> Response:
    return asking(work, accession_id, verb, Form(form_for(verb)))


def asking(work: Work, accession_id: UUID, verb: str, form: Form) -> Response:
    found = queries.get(work, accession_id)
    taxon = get_taxon(work, found.taxon_id)
    return render(
        "accessions/move.html",
        form=form,
        verb=verb,
        accession=found,
        taxon=taxon,
        dies_dry=taxon.storage not in STORABLE,
        **(readiness(work, accession_id) if verb == "store" else {}),
        seeds=queries.seeds_of(work, accession_id),
    )


def readiness(work: Work, accession_id: UUID) -> dict[str, Any]:
    """What speaks against storing it now, and what should be thought of first."""
    return {
        "unplaced": unplaced(queries.lots_of(work, accession_id)),
        "untested": queries.untested(work, accession_id),
    }


@pages.post(PATH, needs=Right.LOT_WORK)
def send_move(work: Work, accession_id: UUID, verb: str) -> Response:
    queries.get(work, accession_id)
    form = Form.sent(form_for(verb))
    with form.answering():
        moved = actions.move(work, accession_id=accession_id, wanted=VERBS[verb], **form.data)
        words = say("{number}: {state}.", number=moved.number, state=moved.state.words)
        return done(words, url_for(".accession", accession_id=accession_id))
    return asking(work, accession_id, verb, form)
