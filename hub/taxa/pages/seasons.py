"""A bank's seasons: open one, set its days."""

from __future__ import annotations

from uuid import UUID

from flask import url_for
from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.rights.right import Right
from hub.taxa import actions, queries, schemas
from hub.taxa.models import Season
from hub.taxa.pages.blueprint import pages
from hub.web.forms import Form
from hub.web.render import done, render
from hub.words import NotFound, say


@pages.get("/seasons", needs=Right.WANTED_EDIT)
def seasons(work: Work) -> Response:
    bank_id = work.scope.own_bank_id
    if bank_id is None:
        raise NotFound("bank")
    return render(
        "taxa/seasons.html",
        seasons=queries.seasons(work, bank_id),
        current=queries.current_season(work, bank_id),
        today=work.today,
    )


@pages.get("/seasons/new", needs=Right.WANTED_EDIT)
def new_season(work: Work) -> Response:
    return season_form(Form(schemas.SeasonSchema()))


@pages.post("/seasons/new", needs=Right.WANTED_EDIT)
def send_new_season(work: Work) -> Response:
    form = Form.sent(schemas.SeasonSchema())
    with form.answering():
        season = actions.open_season(work, **form.data)
        words = say("Season {season} is open. Its list is empty so far.", season=season.year)
        return done(words, url_for(".wanted", season=season.id))
    return season_form(form)


@pages.get("/seasons/<uuid:season_id>", needs=Right.WANTED_EDIT)
def edit_season(work: Work, season_id: UUID) -> Response:
    season = queries.get_own_season(work, season_id)
    return season_form(Form(schemas.DaysSchema(), season), season)


@pages.post("/seasons/<uuid:season_id>", needs=Right.WANTED_EDIT)
def send_edit_season(work: Work, season_id: UUID) -> Response:
    season = queries.get_own_season(work, season_id)
    form = Form.sent(schemas.DaysSchema())
    with form.answering():
        actions.change_season(work, season_id=season_id, **form.data)
        return done(say("The days are saved."), url_for(".seasons"))
    return season_form(form, season)


def season_form(form: Form, season: Season | None = None) -> Response:
    return render("taxa/season_form.html", form=form, season=season)
