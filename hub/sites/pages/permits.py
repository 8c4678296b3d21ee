"""Permits: the list for everybody who collects under them, and the bank's forms."""

from __future__ import annotations

from uuid import UUID

from flask import url_for
from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.rights.right import Right
from hub.sites import actions, queries, schemas
from hub.sites.models import Permit
from hub.sites.pages.blueprint import pages
from hub.sites.pages.offers import rights, species_called, species_names
from hub.sites.rules import holds_on
from hub.web.downloads import csv_download
from hub.web.fields import Yes
from hub.web.forms import Form
from hub.web.listing import Asked, Filter
from hub.web.render import done, render
from hub.words import say

FILTERS = (Filter("holds", say("Holding today"), Yes(), lambda value: say("yes")),)
HEAD = (
    say("Number"),
    say("Authority"),
    say("Species"),
    say("Site"),
    say("From"),
    say("To"),
    say("Ended on"),
    say("Cap (seeds)"),
    say("Conditions"),
)


@pages.get("/permits", needs=Right.SITE_READ)
def permits(work: Work) -> Response:
    asked = Asked.of(FILTERS, queries.PERMIT_ORDERS)
    statement = queries.permits(work, **asked.values)
    if asked.wants_csv:
        rows = asked.everything(work, statement)
        return csv_download("permits", HEAD, (row_of(*row) for row in rows))
    return render(
        "sites/permits.html",
        asked=asked,
        page=asked.page(work, statement),
        holds=lambda permit: holds_on(work.today, permit.starts_on, permit.ends_on, permit.ended_on),
        **rights(work),
    )


def row_of(permit: Permit, species: str | None, site: str | None) -> tuple[object, ...]:
    days = permit.starts_on, permit.ends_on, permit.ended_on
    return permit.number, permit.authority, species, site, *days, permit.cap_seeds, permit.conditions


@pages.get("/permits/record", needs=Right.PERMIT_RECORD)
def record_permit(work: Work) -> Response:
    return asking(work, Form(schemas.PermitSchema(), {"starts_on": work.today}))


def asking(work: Work, form: Form) -> Response:
    return render(
        "sites/permit_form.html", form=form, species=species_names(work), sites=queries.sites_by_name(work)
    )


@pages.post("/permits/record", needs=Right.PERMIT_RECORD)
def send_permit(work: Work) -> Response:
    form = Form.sent(schemas.PermitSchema())
    with form.answering():
        details = dict(form.data)
        name = details.pop("species")
        taxon_id = species_called(work, name) if name else None
        permit = actions.record_permit(work, taxon_id=taxon_id, **details)
        return done(say("Permit {number} is recorded.", number=permit.number), url_for(".permits"))
    return asking(work, form)


@pages.get("/permits/<uuid:permit_id>/end", needs=Right.PERMIT_RECORD)
def end_permit(work: Work, permit_id: UUID) -> Response:
    permit = queries.get_permit(work, permit_id)
    return render("sites/permit_end.html", form=Form(schemas.EndSchema(), {"on": work.today}), permit=permit)


@pages.post("/permits/<uuid:permit_id>/end", needs=Right.PERMIT_RECORD)
def send_end_permit(work: Work, permit_id: UUID) -> Response:
    permit, form = queries.get_permit(work, permit_id), Form.sent(schemas.EndSchema())
    with form.answering():
        actions.end_permit(work, permit_id=permit_id, **form.data)
        return done(say("Permit {number} holds no more.", number=permit.number), url_for(".permits"))
    return render("sites/permit_end.html", form=form, permit=permit)
