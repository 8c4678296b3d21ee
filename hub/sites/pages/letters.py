"""Asking an owner: the letter's details, the letter as PDF or by mail, and the day on which it was asked."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from flask import request, url_for
from marshmallow import ValidationError
from werkzeug.datastructures import MultiDict
from werkzeug.exceptions import BadRequest
from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.rights.right import Right
from hub.sites import actions, queries, schemas
from hub.sites.letter import letter_about, mail, opening
from hub.sites.models import Site
from hub.sites.pages.blueprint import pages
from hub.web.downloads import pdf_download
from hub.web.forms import Form
from hub.web.limits import limited, minutes, person
from hub.web.pdf import pdf_page
from hub.web.render import done, render
from hub.web.sent import Reading
from hub.words import say

UNREADABLE = say("The details of this letter cannot be used. Go back and check its days and numbers.")


@pages.get("/sites/<uuid:site_id>/letter", needs=Right.SITE_EDIT)
def letter(work: Work, site_id: UUID) -> Response:
    """The letter's details stand in the address, so that it can be looked at before anything is noted."""
    site = queries.get_site(work, site_id)
    details = Form(schemas.LetterSchema(), letter_about(work, site))
    if request.args:
        details.typed = MultiDict(request.args)
        details.reading = Reading(details.typed, MultiDict())
        with details.answering():
            letter_about(work, site, **details.data)
    return asking(work, site, details, Form(schemas.AskSchema(), {"on": work.today}))


def asking(work: Work, site: Site, details: Form, form: Form) -> Response:
    grown = [taxon for each, taxon in queries.populations_at(work, site.id) if each.retired_at is None]
    said = {name: details.value(name) for name in schemas.LetterSchema().fields if details.value(name)}
    page = render(
        "sites/letter_form.html",
        details=details,
        form=form,
        site=site,
        said=said,
        taxa=list({taxon.id: taxon for taxon in grown}.values()),
        permission=queries.newest_permission(work, site.id),
    )
    page.status_code = 422 if details.problems else page.status_code
    return page


@pages.get("/sites/<uuid:site_id>/letter.pdf", needs=Right.SITE_EDIT)
@limited("papers", times=120, within=minutes(10), by=person, reads=True)
def letter_pdf(work: Work, site_id: UUID) -> Response:
    site = queries.get_site(work, site_id)
    about = letter_about(work, site, **details_in_address())
    body = pdf_page(work.settings, "sites/letter_pdf.html", letter=about, opening=opening(about))
    return pdf_download(f"Permission letter, {site.name}", body)


def details_in_address() -> dict[str, Any]:
    """What the address says of a letter. Raises BadRequest for what no form of ours would send."""
    given = {name: text for name, text in request.args.items() if text}
    try:
        found: dict[str, Any] = schemas.LetterSchema().load(given)
    except ValidationError:
        raise BadRequest(UNREADABLE) from None  # type: ignore[arg-type]
    return found


@pages.post("/sites/<uuid:site_id>/letter", needs=Right.SITE_EDIT)
@limited("owner letter", times=20, within=minutes(60), by=person)
def send_letter(work: Work, site_id: UUID) -> Response:
    site, form = queries.get_site(work, site_id), Form.sent(schemas.AskSchema())
    with form.answering():
        mailed = ask(work, site, **form.data)
        words = say("The letter is on its way.") if mailed else say("It is noted that the owner was asked.")
        return done(words, url_for(".site", site_id=site_id))
    return asking(work, site, Form(schemas.LetterSchema(), form.typed), form)


def ask(work: Work, site: Site, *, on: Any, mailed: bool, **details: Any) -> bool:
    """Note the day, and send the letter where that was wished; says whether it was."""
    about = letter_about(work, site, **details)
    actions.ask_permission(work, site_id=site.id, on=on)
    if mailed:
        mail(work, about)
    return mailed
