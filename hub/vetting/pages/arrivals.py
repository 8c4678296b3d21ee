"""The bank notes that seed has come in: when, by whom, in what condition; and takes such a note back."""

from __future__ import annotations

from uuid import UUID

from flask import url_for
from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.rights.right import Right
from hub.taxa.queries import get as get_taxon
from hub.vetting import actions
from hub.vetting.pages.blueprint import pages
from hub.vetting.pages.submission_bench import handed_in_once
from hub.vetting.verdict_schemas import ArrivalSchema
from hub.web.forms import Form
from hub.web.render import done, render
from hub.words import say


@pages.get("/bench/<uuid:submission_id>/arrival", needs=Right.SUBMISSION_RECEIVE)
def ask_arrival(work: Work, submission_id: UUID) -> Response:
    here = work.now.astimezone(work.zone)
    given = {"day": here.date(), "at": here.time().replace(second=0, microsecond=0)}
    return asking(work, submission_id, Form(ArrivalSchema(), given))


def asking(work: Work, submission_id: UUID, form: Form) -> Response:
    submission = handed_in_once(work, submission_id)
    return render(
        "vetting/bench_arrival.html",
        form=form,
        submission=submission,
        taxon=get_taxon(work, submission.taxon_id),
        today=work.today,
    )


@pages.post("/bench/<uuid:submission_id>/arrival", needs=Right.SUBMISSION_RECEIVE)
def arrived(work: Work, submission_id: UUID) -> Response:
    handed_in_once(work, submission_id)
    form = Form.sent(ArrivalSchema())
    with form.answering():
        found = actions.seed_arrived(work, submission_id=submission_id, **form.data)
        words = say("The seed of {number} is noted as arrived.", number=found.number)
        return done(words, url_for(".on_bench", submission_id=submission_id))
    return asking(work, submission_id, form)


@pages.post("/bench/<uuid:submission_id>/arrival/undo", needs=Right.SUBMISSION_RECEIVE)
def undo_arrival(work: Work, submission_id: UUID) -> Response:
    handed_in_once(work, submission_id)
    found = actions.undo_arrival(work, submission_id=submission_id)
    words = say("The note that {number} arrived is taken back.", number=found.number)
    return done(words, url_for(".on_bench", submission_id=submission_id))
