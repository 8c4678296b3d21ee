"""A school's crews: a nickname, how many, how old."""

from __future__ import annotations

from uuid import UUID

from flask import url_for
from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.groups import crews, queries, schemas
from hub.groups.pages.blueprint import pages
from hub.groups.role_words import BANDS
from hub.rights.right import Right
from hub.web.forms import Form
from hub.web.render import done, render
from hub.words import say


@pages.get("/our-group/crews/new", needs=Right.GROUP_MANAGE)
def new_crew(work: Work) -> Response:
    queries.my_group(work)
    return shown(Form(schemas.CrewSchema()))


@pages.post("/our-group/crews/new", needs=Right.GROUP_MANAGE)
def add_crew(work: Work) -> Response:
    form = Form.sent(schemas.CrewSchema())
    with form.answering():
        crew = crews.add_crew(work, **form.data)
        return done(say("{nickname} are in.", nickname=crew.nickname), url_for(".our_group"))
    return shown(form)


@pages.get("/our-group/crews/<uuid:crew_id>", needs=Right.GROUP_MANAGE)
def crew(work: Work, crew_id: UUID) -> Response:
    found = queries.get_crew(work, crew_id)
    return shown(Form(schemas.CrewSchema(), found), crew_id)


@pages.post("/our-group/crews/<uuid:crew_id>", needs=Right.GROUP_MANAGE)
def change_crew(work: Work, crew_id: UUID) -> Response:
    queries.get_crew(work, crew_id)
    form = Form.sent(schemas.CrewSchema())
    with form.answering():
        crews.change_crew(work, crew_id=crew_id, **form.data)
        return done(say("The crew is saved."), url_for(".our_group"))
    return shown(form, crew_id)


@pages.post("/our-group/crews/<uuid:crew_id>/retire", needs=Right.GROUP_MANAGE)
def retire_crew(work: Work, crew_id: UUID) -> Response:
    crews.retire_crew(work, crew_id=crew_id)
    return done(say("The crew has left. What it collected keeps its name."), url_for(".our_group"))


def shown(form: Form, crew_id: UUID | None = None) -> Response:
    return render("groups/crew.html", form=form, crew_id=crew_id, bands=list(BANDS.items()))
