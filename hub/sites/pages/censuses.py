"""Counting the plants of a population."""

from __future__ import annotations

from decimal import Decimal
from typing import Any
from uuid import UUID

from flask import request, url_for
from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.rights.right import Right
from hub.sites import actions, queries, schemas
from hub.sites.pages.blueprint import pages
from hub.sites.pages.offers import members
from hub.sites.rules import CensusMethod
from hub.taxa.queries import get
from hub.taxa.trait_words import ANSWERS
from hub.web.forms import Form
from hub.web.render import done, render
from hub.words import say_n

RECKONED = ("plants", "fruits_per_plant", "seeds_per_fruit")
"""What a calculator may send along; it stands in its box, to be looked at before it is sent."""


@pages.get("/populations/<uuid:population_id>/census", needs=Right.CENSUS_RECORD)
def census(work: Work, population_id: UUID) -> Response:
    reckoned = {name: request.args[name] for name in RECKONED if name in request.args}
    return counting(work, population_id, Form(schemas.CensusSchema(), {"counted_on": work.today, **reckoned}))


def counting(work: Work, population_id: UUID, form: Form) -> Response:
    found = queries.get_population(work, population_id)
    return render(
        "sites/census.html",
        form=form,
        population=found,
        taxon=get(work, found.taxon_id),
        last=queries.latest_census(work, population_id),
        methods=members(CensusMethod),
        answers=ANSWERS,
    )


@pages.post("/populations/<uuid:population_id>/census", needs=Right.CENSUS_RECORD)
def send_census(work: Work, population_id: UUID) -> Response:
    form = Form.sent(schemas.CensusSchema())
    with form.answering():
        counted = actions.record_census(work, population_id=population_id, **as_counted(form.data))
        words = say_n("{n} plant is counted.", "{n} plants are counted.", n=counted.plants)
        return done(words, url_for(".population", population_id=population_id))
    return counting(work, population_id, form)


def as_counted(data: dict[str, Any]) -> dict[str, Any]:
    """Measures are kept as floats."""
    return {name: float(value) if isinstance(value, Decimal) else value for name, value in data.items()}
