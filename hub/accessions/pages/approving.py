"""Say yes to a submission: asked about first, then a result that offers what comes next."""

from __future__ import annotations

from uuid import UUID

from flask import redirect, url_for
from werkzeug.wrappers import Response

from hub.accessions import actions, queries
from hub.accessions.handed_in import collection_of
from hub.accessions.pages.blueprint import pages
from hub.accessions.schemas import ApproveSchema
from hub.db.work import Work
from hub.groups.queries import get_group
from hub.rights.right import Right
from hub.taxa.queries import get as get_taxon
from hub.vetting import queries as submissions
from hub.vetting.collection import Handling
from hub.vetting.rules import SubmissionState
from hub.web.forms import Form
from hub.web.render import render


@pages.get("/submissions/<uuid:submission_id>/approve", needs=Right.SUBMISSION_VET)
def ask_approve(work: Work, submission_id: UUID) -> Response:
    made = queries.of_submission(work, submission_id)
    if made:
        return redirect(url_for(".made", accession_id=made.id))
    return asking(work, submission_id, Form(ApproveSchema()))


def asking(work: Work, submission_id: UUID, form: Form) -> Response:
    submission = submissions.get(work, submission_id)
    collection = collection_of(work, submission)
    return render(
        "accessions/approve.html",
        form=form,
        submission=submission,
        waits=submission.state is SubmissionState.HANDED_IN,
        collection=collection,
        by_mother=collection.handling is Handling.BY_MOTHER,
        taxon=get_taxon(work, submission.taxon_id),
        group=get_group(work, submission.group_id),
    )


@pages.post("/submissions/<uuid:submission_id>/approve", needs=Right.SUBMISSION_VET)
def approve(work: Work, submission_id: UUID) -> Response:
    submissions.get(work, submission_id)  # a stranger's form is not even read
    form = Form.sent(ApproveSchema())
    with form.answering():
        made = actions.approve(work, submission_id=submission_id, **form.data)
        return redirect(url_for(".made", accession_id=made.id), code=303)
    return asking(work, submission_id, form)


@pages.get("/accessions/<uuid:accession_id>/made", needs=Right.SUBMISSION_VET)
def made(work: Work, accession_id: UUID) -> Response:
    """What became of the approval, and what to do now."""
    accession = queries.get(work, accession_id)
    lots = queries.lots_of(work, accession_id)
    return render(
        "accessions/made.html",
        accession=accession,
        lots=lots,
        seeds=sum(lot.balance_seeds for lot in lots),
        taxon=get_taxon(work, accession.taxon_id),
        group=get_group(work, accession.group_id),
    )
