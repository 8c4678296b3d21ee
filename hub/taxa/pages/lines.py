"""One species on a season's list: put it on, change what is needed, take it off."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from flask import url_for
from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.rights.right import Right
from hub.taxa import actions, queries, schemas
from hub.taxa.models import Season, Taxon
from hub.taxa.pages.blueprint import pages
from hub.taxa.pages.shelf import Shelf
from hub.taxa.trait_words import PRIORITIES, offered
from hub.web.forms import Form
from hub.web.render import done, render
from hub.words import NotFound, Refused, say

LINE = "/seasons/<uuid:season_id>/wanted/<uuid:taxon_id>"


@pages.get("/seasons/<uuid:season_id>/wanted/add", needs=Right.WANTED_EDIT)
def add_line(work: Work, season_id: UUID) -> Response:
    season = queries.get_own_season(work, season_id)
    return line_form(work, Form(schemas.WantNewSchema(), {"priority": 2}), season)


@pages.post("/seasons/<uuid:season_id>/wanted/add", needs=Right.WANTED_EDIT)
def send_add_line(work: Work, season_id: UUID) -> Response:
    season = queries.get_own_season(work, season_id)
    form = Form.sent(schemas.WantNewSchema())
    with form.answering():
        taxon = named(work, season, form.data["species"])
        actions.want(work, season_id=season_id, taxon_id=taxon.id, **line_from(form.data))
        return done(say("{name} is on the list.", name=taxon.canonical), url_for(".wanted", season=season_id))
    return line_form(work, form, season)


def named(work: Work, season: Season, name: str) -> Taxon:
    """The species of this name, unless it is on the list. Raises ``Refused`` beside the name."""
    taxon = queries.find(work, name)
    if taxon is None:
        raise Refused(
            say("There is no species of this name here. Check the spelling, or add the species first."),
            field="species",
        )
    if queries.wanted_of(work, season.id, taxon.id):
        raise Refused(say("This species is on the list already. Change its line there."), field="species")
    return taxon


def line_from(data: dict[str, Any]) -> dict[str, Any]:
    needs = [actions.NeedGiven(**row) for row in data["needs"]]
    return {"priority": data["priority"], "note": data["note"], "needs": needs}


@pages.get(LINE, needs=Right.WANTED_EDIT)
def edit_line(work: Work, season_id: UUID, taxon_id: UUID) -> Response:
    season, taxon = queries.get_own_season(work, season_id), queries.get(work, taxon_id)
    line = queries.wanted_of(work, season_id, taxon_id)
    if line is None:
        raise NotFound(taxon_id)
    given = {"priority": line.priority, "note": line.note, "needs": queries.needs_of(work, line.id)}
    return line_form(work, Form(schemas.WantSchema(), given), season, taxon)


@pages.post(LINE, needs=Right.WANTED_EDIT)
def send_edit_line(work: Work, season_id: UUID, taxon_id: UUID) -> Response:
    season, taxon = queries.get_own_season(work, season_id), queries.get(work, taxon_id)
    form = Form.sent(schemas.WantSchema())
    with form.answering():
        actions.want(work, season_id=season_id, taxon_id=taxon_id, **line_from(form.data))
        return done(say("{name} is saved.", name=taxon.canonical), url_for(".wanted", season=season_id))
    return line_form(work, form, season, taxon)


@pages.get(f"{LINE}/remove", needs=Right.WANTED_EDIT)
def ask_remove_line(work: Work, season_id: UUID, taxon_id: UUID) -> Response:
    season, taxon = queries.get_own_season(work, season_id), queries.get(work, taxon_id)
    if queries.wanted_of(work, season_id, taxon_id) is None:
        raise NotFound(taxon_id)
    return render("taxa/remove_line.html", season=season, taxon=taxon)


@pages.post(f"{LINE}/remove", needs=Right.WANTED_EDIT)
def remove_line(work: Work, season_id: UUID, taxon_id: UUID) -> Response:
    taxon = queries.get(work, taxon_id)
    actions.unwant(work, season_id=season_id, taxon_id=taxon_id)
    return done(say("{name} is off the list.", name=taxon.canonical), url_for(".wanted", season=season_id))


def line_form(work: Work, form: Form, season: Season, taxon: Taxon | None = None) -> Response:
    return render(
        "taxa/line_form.html",
        form=form,
        season=season,
        taxon=taxon,
        shelf=Shelf.of(work, str(season.id)),
        priorities=offered(PRIORITIES),
    )
