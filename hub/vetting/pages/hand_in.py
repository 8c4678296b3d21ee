"""Begin a hand-in under a sheet, hand it in, see what comes next, or give a draft up."""

from __future__ import annotations

import secrets
from collections.abc import Sequence
from typing import Any
from uuid import UUID

from flask import redirect, request, url_for
from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.groups import queries as groups
from hub.protocols.queries import get_sheet, sheet_of
from hub.protocols.sheet import Section
from hub.rights.right import Right
from hub.sites.queries import get_population
from hub.taxa.queries import get as get_taxon
from hub.taxa.queries import get_season
from hub.vetting import actions, queries
from hub.vetting.pages.blueprint import pages
from hub.vetting.pages.drafted import form_of, typed_form
from hub.vetting.pages.writing import read, writing
from hub.vetting.rules import SubmissionState
from hub.vetting.schemas import BeginSchema, VersionSchema
from hub.web.forms import Form
from hub.web.limits import limited, minutes, person
from hub.web.render import done, render
from hub.words import say

NEVER = (SubmissionState.DRAFT, SubmissionState.WITHDRAWN)


@pages.get("/hand-ins/new", needs=Right.SUBMISSION_WRITE)
def new_hand_in(work: Work) -> Response:
    return beginning(work, Form(BeginSchema()))


def beginning(work: Work, form: Form) -> Response:
    """The sheets to hand in under: all that hold now, or the one that the address names.

    One that holds no longer is offered only on asking: what was collected while it held is not lost.
    """
    wanted = request.args.get("sheet", type=UUID)
    return render(
        "vetting/new_hand_in.html",
        form=form,
        sheets=[one_sheet(work, wanted)] if wanted else queries.sheets_in_hand(work),
        put_away=[] if wanted else queries.sheets_put_away(work),
        open=queries.open_hand_ins(work),
        sent_key=secrets.token_urlsafe(24),
    )


def one_sheet(work: Work, sheet_id: UUID) -> Sequence[Any]:
    """Any sheet of the group, also one that holds no longer."""
    issued = get_sheet(work, sheet_id)
    taxon, population = get_taxon(work, issued.taxon_id), get_population(work, issued.population_id)
    return issued, taxon, population, get_season(work, issued.season_id).year


@pages.post("/hand-ins", needs=Right.SUBMISSION_WRITE)
@limited("hand-ins begun", times=60, within=minutes(60), by=person)
def begin(work: Work) -> Response:
    form = Form.sent(BeginSchema())
    with form.answering():
        submission = actions.begin(work, **form.data)
        return redirect(url_for(".write", submission_id=submission.id), code=303)
    return beginning(work, form)


@pages.post("/hand-ins/<uuid:submission_id>/hand-in", needs=Right.SUBMISSION_HAND_IN)
@limited("hand-ins", times=60, within=minutes(60), by=person)
def send_hand_in(work: Work, submission_id: UUID) -> Response:
    seen = Form.sent(VersionSchema())
    submission = queries.get(work, submission_id)
    sheet = sheet_of(get_sheet(work, submission.sheet_id))
    form = typed_form(form_of(work, submission, sheet).typed.items(multi=True))
    with form.answering():
        collection = read(work, form)
        actions.hand_in(work, submission_id=submission_id, data=collection, **seen.data)
        return redirect(url_for(".handed_in", submission_id=submission_id), code=303)
    return writing(work, submission, form)


@pages.get("/hand-ins/<uuid:submission_id>/handed-in", needs=Right.SUBMISSION_WRITE)
def handed_in(work: Work, submission_id: UUID) -> Response:
    """What to do with the seed now."""
    submission = queries.get(work, submission_id)
    if submission.state in NEVER:
        return redirect(url_for(".submission", submission_id=submission_id))
    sheet = sheet_of(get_sheet(work, submission.sheet_id))
    wanted = (Section.LABELS, Section.TRANSPORT, Section.AFTER)
    return render(
        "vetting/handed_in.html",
        submission=submission,
        sheet=sheet,
        bank=groups.bank_of(work, groups.my_group(work)),
        taxon=get_taxon(work, submission.taxon_id),
        counsel=[(section, sheet.sections.get(section, ())) for section in wanted],
    )


@pages.get("/hand-ins/<uuid:submission_id>/withdraw", needs=Right.SUBMISSION_HAND_IN)
def ask_withdraw(work: Work, submission_id: UUID) -> Response:
    return render("vetting/withdraw.html", submission=queries.get(work, submission_id))


@pages.post("/hand-ins/<uuid:submission_id>/withdraw", needs=Right.SUBMISSION_HAND_IN)
def withdraw(work: Work, submission_id: UUID) -> Response:
    submission = actions.withdraw(work, submission_id=submission_id)
    return done(say("{number} is withdrawn.", number=submission.number), url_for(".hand_ins"))
