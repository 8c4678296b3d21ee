"""One submission on the bench: everything a curator judges it by, and the verdicts."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from flask import current_app, url_for
from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.groups import queries as groups
from hub.protocols.queries import get_sheet, sheet_of
from hub.protocols.sheet import Sheet
from hub.rights.policy import may
from hub.rights.right import Right
from hub.sites.queries import get_population, get_site
from hub.sites.readings import exact_place_read
from hub.taxa.queries import get as get_taxon
from hub.vetting import actions, queries
from hub.vetting.collection import Collection
from hub.vetting.models import Submission
from hub.vetting.pages.bench import settled
from hub.vetting.pages.bench_words import WHY_URGENT, standing_of, title_of
from hub.vetting.pages.blueprint import pages
from hub.vetting.pages.kinds import KINDS
from hub.vetting.pages.looks import told_facts
from hub.vetting.pages.submission import changes
from hub.vetting.pages.submission_map import submission_map
from hub.vetting.rules import CAN_ARRIVE, SUBMISSION_MOVES, FindingState, Severity, SubmissionState
from hub.vetting.verdict_schemas import DeclineSchema, ReturnSchema, SettleSchema
from hub.web.forms import Form
from hub.web.render import done, render
from hub.words import NotFound, Words, say

APPROVAL = "accessions.ask_approve"  # the page, a feature above this one, that makes the accession
SHARED_AT_FIRST = frozenset({Severity.STOP, Severity.QUERY})


@pages.get("/bench/<uuid:submission_id>", needs=Right.SUBMISSION_BENCH)
def on_bench(work: Work, submission_id: UUID) -> Response:
    return showing(work, handed_in_once(work, submission_id), Form(SettleSchema()))


def handed_in_once(work: Work, submission_id: UUID) -> Submission:
    """A submission that the bank has been given; a draft is its group’s own. Raises NotFound."""
    submission = queries.get(work, submission_id)
    if not submission.revision:
        raise NotFound("submission")
    return submission


def showing(work: Work, submission: Submission, form: Form) -> Response:
    revisions = queries.revisions(work, submission.id)
    given = queries.collection_of(revisions[-1])
    known = heading(work, submission)
    exact_place_read(work, submission, [known["taxon"]])
    return render(
        "vetting/bench_submission.html",
        form=form,
        submission=submission,
        **known,
        **seen(work, submission, given),
        **judged(work, submission),
        given=given,
        facts=[(name, say("{value}", value=value)) for name, value in told_facts(work, given)],
        changes=sorted(changes(revisions).items(), reverse=True),
    )


def heading(work: Work, submission: Submission) -> dict[str, Any]:
    """Whose it is, how urgent, and what stands before and after it in the queue."""
    return {
        "taxon": get_taxon(work, submission.taxon_id),
        "group": groups.get_group(work, submission.group_id),
        "why_urgent": WHY_URGENT[submission.urgency],
        "standing": standing_of(submission, work.now),
        "before": queries.neighbour(work, submission, before=True),
        "after": queries.neighbour(work, submission, before=False),
    }


def seen(work: Work, submission: Submission, given: Collection) -> dict[str, Any]:
    """The sheet, the place and the photographs."""
    issued = get_sheet(work, submission.sheet_id)
    sheet = sheet_of(issued)
    population = get_population(work, submission.population_id)
    site = get_site(work, population.site_id)
    photographs = queries.photographs(work, submission.id)
    return {
        "issued": issued,
        "sheet": sheet,
        "population": population,
        "site": site,
        "drawn": submission_map(site, population, given, photographs),
        "kinds": KINDS,
        "mothers": mother_rows(given, sheet),
    }


def mother_rows(given: Collection, sheet: Sheet) -> list[dict[str, Any]]:
    """Each mother, the share of its ripe fruits that was taken, and the fruits that the sheet allows."""
    rows = []
    for tally in given.tallies:
        ripe = tally.ripe_fruits
        share = tally.fruits_taken / ripe if ripe else None
        allowed = None if ripe is None else sheet.headline.most_from(ripe)
        over = allowed is not None and tally.fruits_taken > allowed
        rows.append({"tally": tally, "share": share, "allowed": allowed, "over": over})
    return rows


def judged(work: Work, submission: Submission) -> dict[str, Any]:
    """The findings, what was written and done, and what this seat may do now."""
    waits, vets = submission.state is SubmissionState.HANDED_IN, may(work.scope, Right.SUBMISSION_VET)
    approval = APPROVAL in current_app.view_functions
    history = queries.history(work, submission)
    return {
        "findings": queries.findings(work, submission),
        "title_of": title_of,
        "read": Words.from_json,
        "remarks": queries.remarks(work, submission.id),
        "history": history,
        "received_by": next((each.by for each in reversed(history) if each.arrived), ""),
        "may_vet": waits and vets,
        "may_receive": submission.state in CAN_ARRIVE and may(work.scope, Right.SUBMISSION_RECEIVE),
        "may_decline": vets and SubmissionState.DECLINED in SUBMISSION_MOVES[submission.state],
        "approve_url": url_for(APPROVAL, submission_id=submission.id) if approval else None,
    }


@pages.post("/bench/<uuid:submission_id>/findings", needs=Right.SUBMISSION_VET)
def settle(work: Work, submission_id: UUID) -> Response:
    form = Form.sent(SettleSchema())
    with form.answering():
        own = {each.id for each in queries.findings(work, handed_in_once(work, submission_id))}
        if not own.issuperset(form.data["finding_ids"]):
            raise NotFound("finding")
        words = settled(actions.settle(work, **form.data), form.data["state"])
        return done(words, url_for(".on_bench", submission_id=submission_id, _anchor="findings"))
    return showing(work, handed_in_once(work, submission_id), form)


@pages.get("/bench/<uuid:submission_id>/return", needs=Right.SUBMISSION_VET)
def ask_to_return(work: Work, submission_id: UUID) -> Response:
    submission = handed_in_once(work, submission_id)
    shown = [each.id for each in open_findings(work, submission) if each.severity in SHARED_AT_FIRST]
    return returning(work, submission, Form(ReturnSchema(), {"finding_ids": shown}))


def open_findings(work: Work, submission: Submission) -> list[Any]:
    return [each for each in queries.findings(work, submission) if each.state is FindingState.OPEN]


def returning(work: Work, submission: Submission, form: Form) -> Response:
    return render(
        "vetting/bench_return.html",
        form=form,
        submission=submission,
        findings=[(each.id, Words.from_json(each.words)) for each in open_findings(work, submission)],
        taxon=get_taxon(work, submission.taxon_id),
    )


@pages.post("/bench/<uuid:submission_id>/return", needs=Right.SUBMISSION_VET)
def send_back(work: Work, submission_id: UUID) -> Response:
    form = Form.sent(ReturnSchema())
    with form.answering():
        found = actions.send_back(work, submission_id=submission_id, **form.data)
        words = say("{number} went back to its group, with your remarks.", number=found.number)
        return done(words, after(work, found))
    return returning(work, handed_in_once(work, submission_id), form)


def after(work: Work, submission: Submission) -> str:
    """After a verdict the next in the queue, or the bench when it was the last."""
    next_id = queries.neighbour(work, submission, before=False)
    return url_for(".on_bench", submission_id=next_id) if next_id else url_for(".bench")


@pages.get("/bench/<uuid:submission_id>/decline", needs=Right.SUBMISSION_VET)
def ask_to_decline(work: Work, submission_id: UUID) -> Response:
    return declining(work, handed_in_once(work, submission_id), Form(DeclineSchema()))


def declining(work: Work, submission: Submission, form: Form) -> Response:
    return render(
        "vetting/bench_decline.html",
        form=form,
        submission=submission,
        taxon=get_taxon(work, submission.taxon_id),
    )


@pages.post("/bench/<uuid:submission_id>/decline", needs=Right.SUBMISSION_VET)
def decline(work: Work, submission_id: UUID) -> Response:
    form = Form.sent(DeclineSchema())
    with form.answering():
        found = actions.decline(work, submission_id=submission_id, **form.data)
        return done(
            say("{number} is declined; its group knows why.", number=found.number), after(work, found)
        )
    return declining(work, handed_in_once(work, submission_id), form)
