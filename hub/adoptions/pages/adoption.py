"""One adoption: where it stands, what happened, what can be done with it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any
from uuid import UUID

from flask import url_for
from marshmallow import Schema
from werkzeug.wrappers import Response

from hub.adoptions import actions, queries
from hub.adoptions.pages.blueprint import pages
from hub.adoptions.rules import ADOPTION_MOVES, AdoptionState
from hub.adoptions.schemas import HoldSchema, ReasonSchema, RemarkSchema
from hub.adoptions.story import story_of
from hub.db.work import Work
from hub.groups.queries import get_group
from hub.rights.policy import may
from hub.rights.right import Right
from hub.sites import queries as sites
from hub.taxa import queries as taxa
from hub.web.forms import Form
from hub.web.render import done, render
from hub.words import Words, say


@pages.get("/adoptions/<uuid:adoption_id>", needs=Right.ADOPTION_READ)
def adoption(work: Work, adoption_id: UUID) -> Response:
    return shown(work, adoption_id, Form(HoldSchema()))


def shown(work: Work, adoption_id: UUID, form: Form) -> Response:
    found = queries.get(work, adoption_id)
    taken_on = queries.populations_held(work, adoption_id)
    known = {population.id for population in taken_on}
    return render(
        "adoptions/adoption.html",
        adoption=found,
        taxon=taxa.get(work, found.taxon_id),
        group=get_group(work, found.group_id),
        season=taxa.get_season(work, found.season_id),
        district=dict(queries.districts_of(work, found.region_id)).get(found.district_id),
        holds={hold.population_id: hold for hold in queries.held(work, adoption_id)},
        populations=taken_on,
        others=[
            (each.id, f"{each.code}, {each.label}")
            for each in sites.populations_of(work, found.taxon_id)
            if each.id not in known
        ],
        story=story_of(queries.history(work, adoption_id)),
        moves=ADOPTION_MOVES[found.state],
        may_decide=may(work.scope, Right.ADOPTION_DECIDE),
        may_release=may(work.scope, Right.ADOPTION_ASK),
        may_hold=may(work.scope, Right.SITE_EDIT) and found.state is AdoptionState.ACTIVE,
        form=form,
    )


@dataclass(frozen=True)
class Verb:
    """A move that the page asks about first."""

    act: Callable[..., Any]
    schema: type[Schema]
    done: Words


VERBS = {
    "suspend": Verb(actions.suspend, ReasonSchema, say("The adoption is paused; the group is told.")),
    "resume": Verb(actions.resume, RemarkSchema, say("The adoption goes on; the group is told.")),
    "fulfil": Verb(actions.fulfil, RemarkSchema, say("The adoption is fulfilled.")),
    "release": Verb(
        actions.release, RemarkSchema, say("The species is back on the list. Thank you for saying so.")
    ),
}


@pages.get("/adoptions/<uuid:adoption_id>/<any(suspend, resume, fulfil):verb>", needs=Right.ADOPTION_DECIDE)
def ask_move(work: Work, adoption_id: UUID, verb: str) -> Response:
    return asked_first(work, adoption_id, verb, Form(VERBS[verb].schema()))


@pages.post("/adoptions/<uuid:adoption_id>/<any(suspend, resume, fulfil):verb>", needs=Right.ADOPTION_DECIDE)
def send_move(work: Work, adoption_id: UUID, verb: str) -> Response:
    return moved(work, adoption_id, verb)


@pages.get("/adoptions/<uuid:adoption_id>/release", needs=Right.ADOPTION_ASK)
def ask_release(work: Work, adoption_id: UUID) -> Response:
    return asked_first(work, adoption_id, "release", Form(RemarkSchema()))


@pages.post("/adoptions/<uuid:adoption_id>/release", needs=Right.ADOPTION_ASK)
def send_release(work: Work, adoption_id: UUID) -> Response:
    return moved(work, adoption_id, "release")


def asked_first(work: Work, adoption_id: UUID, verb: str, form: Form) -> Response:
    found = queries.get(work, adoption_id)
    return render(
        "adoptions/move.html",
        form=form,
        verb=verb,
        adoption=found,
        taxon=taxa.get(work, found.taxon_id),
        group=get_group(work, found.group_id),
    )


def moved(work: Work, adoption_id: UUID, verb: str) -> Response:
    queries.get(work, adoption_id)
    form = Form.sent(VERBS[verb].schema())
    with form.answering():
        VERBS[verb].act(work, adoption_id=adoption_id, **form.data)
        return done(VERBS[verb].done, url_for(".adoption", adoption_id=adoption_id))
    return asked_first(work, adoption_id, verb, form)
