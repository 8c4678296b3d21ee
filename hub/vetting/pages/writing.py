"""Write a collection down: a draft, kept whatever is in it, and a look at it before it is handed in."""

from __future__ import annotations

from typing import Any, cast
from uuid import UUID

from flask import jsonify, make_response, redirect, request, url_for
from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.groups import queries as groups
from hub.protocols.queries import get_sheet, sheet_of
from hub.rights.policy import may
from hub.rights.right import Right
from hub.taxa.queries import get as get_taxon
from hub.vetting import actions, queries
from hub.vetting.checks.quality import seeds_to_cut
from hub.vetting.collection import AfterCare, Collection, Container, DrynessProof, Handling
from hub.vetting.foresight import foreseen
from hub.vetting.models import Submission
from hub.vetting.pages.blueprint import pages
from hub.vetting.pages.drafted import form_of, sums, typed_form, typed_now, version_seen
from hub.vetting.pages.looks import left_of, share_of, specimen_asked, tally_rows, told_facts
from hub.vetting.rules import WRITABLE, SubmissionState
from hub.vetting.still_missing import still_missing
from hub.web.forms import Form
from hub.web.language import said
from hub.web.limits import limited, minutes, person
from hub.web.render import done, render
from hub.words import Refused, Words, say

MORE_ROWS = 10
MOST_BLANK_ROWS = 100


@pages.get("/hand-ins/<uuid:submission_id>/write", needs=Right.SUBMISSION_WRITE)
def write(work: Work, submission_id: UUID) -> Response:
    submission = queries.get(work, submission_id)
    if submission.state not in WRITABLE:
        return redirect(url_for(".submission", submission_id=submission_id))
    sheet = sheet_of(get_sheet(work, submission.sheet_id))
    return writing(work, submission, form_of(work, submission, sheet))


def writing(work: Work, submission: Submission, form: Form) -> Response:
    """The form, with what its sheet asks beside it."""
    issued = get_sheet(work, submission.sheet_id)
    used = len(form.rows("tallies"))
    blank = request.args.get("rows", default=1 if used else 5, type=int)
    return render(
        "vetting/write.html",
        form=form,
        submission=submission,
        issued=issued,
        sheet=sheet_of(issued),
        taxon=get_taxon(work, submission.taxon_id),
        rows=form.rows("tallies", blank=min(max(blank, 1), MOST_BLANK_ROWS)),
        sums=sums(form),
        crews=[(crew.id, crew.nickname) for crew in groups.crews(work)],
        left=left_of(work, submission, sheet_of(issued)),
        **asked_back(work, submission),
        photographs=queries.photographs(work, submission.id),
        today=work.today,
        handlings=choices(Handling),
        containers=choices(Container),
        after_cares=choices(AfterCare),
        proofs=choices(DrynessProof),
    )


def asked_back(work: Work, submission: Submission) -> dict[str, Any]:
    """What the bank asked when it sent this back."""
    if submission.state is not SubmissionState.RETURNED:
        return {"remarks": [], "asked": []}
    shown = queries.shared_findings(work, submission)
    return {
        "remarks": queries.remarks(work, submission.id),
        "asked": [Words.from_json(each.words) for each in shown],
    }


def choices(kind: Any) -> list[tuple[str, Any]]:
    return [(each.value, each.words) for each in kind]


@pages.post("/hand-ins/<uuid:submission_id>/write", needs=Right.SUBMISSION_WRITE)
@limited("drafts", times=600, within=minutes(10), by=person)
def send_write(work: Work, submission_id: UUID) -> Response:
    form = typed_form(typed_now())
    with form.answering():
        actions.save_draft(
            work, submission_id=submission_id, draft=form.typed.items(multi=True), version=version_seen()
        )
        return onward(submission_id, form)
    return writing(work, queries.get(work, submission_id), form)


def onward(submission_id: UUID, form: Form) -> Response:
    """Where the pressed button leads, now that everything typed is kept."""
    match request.form.get("do"):
        case "rows":
            here = url_for(".write", submission_id=submission_id, rows=MORE_ROWS, _anchor="tallies")
            return redirect(here, code=303)
        case "photographs":
            return redirect(url_for(".photographs", submission_id=submission_id), code=303)
        case "review":
            return redirect(url_for(".review", submission_id=submission_id), code=303)
    return done(say("Everything you typed is kept."), url_for(".submission", submission_id=submission_id))


@pages.post("/hand-ins/<uuid:submission_id>/keep", needs=Right.SUBMISSION_WRITE)
@limited("drafts", times=600, within=minutes(10), by=person)
def keep(work: Work, submission_id: UUID) -> Response:
    """Keep what is typed meanwhile, for a page that stays open. Answers JSON: a version, and what to say."""
    try:
        submission = actions.save_draft(
            work, submission_id=submission_id, draft=typed_now(), version=version_seen()
        )
    except Refused as refusal:
        return make_response(jsonify(said=said(refusal.words)), 409)
    kept_at = work.now.astimezone(work.zone).time()
    return jsonify(version=submission.version, said=said(say("Kept at {at}.", at=kept_at)))


@pages.get("/hand-ins/<uuid:submission_id>/review", needs=Right.SUBMISSION_WRITE)
def review(work: Work, submission_id: UUID) -> Response:
    """Everything that would be handed in, to be looked at first; or the form, with what is wrong in it."""
    submission = queries.get(work, submission_id)
    if submission.state not in WRITABLE:
        return redirect(url_for(".submission", submission_id=submission_id))
    issued = get_sheet(work, submission.sheet_id)
    form = typed_form(form_of(work, submission, sheet_of(issued)).typed.items(multi=True))
    with form.answering():
        collection = read(work, form)
        return reviewing(work, submission, collection)
    return writing(work, submission, form)


def read(work: Work, form: Form) -> Collection:
    """The collection in a form. Raises ValidationError or Refused where it is none."""
    collection: Any = form.data
    actions.check_collection(work, collection)
    return cast(Collection, collection)


def reviewing(work: Work, submission: Submission, collection: Collection) -> Response:
    issued = get_sheet(work, submission.sheet_id)
    pictures = queries.photographs(work, submission.id)
    sheet = sheet_of(issued)
    return render(
        "vetting/review.html",
        submission=submission,
        issued=issued,
        sheet=sheet,
        taxon=get_taxon(work, submission.taxon_id),
        facts=told_facts(work, collection),
        tallies=tally_rows(collection),
        collection=collection,
        share=share_of(work, submission, sheet, collection),
        foreseen=foreseen(work, submission, collection),
        missing=still_missing(
            collection,
            {each.kind for each in pictures},
            specimen=specimen_asked(sheet),
            cut=seeds_to_cut(sheet) != 0,
        ),
        photographs=pictures,
        may_hand_in=may(work.scope, Right.SUBMISSION_HAND_IN),
    )
