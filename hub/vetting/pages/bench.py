"""The vetting bench: the queue by urgency, and like findings settled together."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import datetime
from typing import Any

from flask import url_for
from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.rights.policy import may
from hub.rights.right import Right
from hub.vetting import actions, queries
from hub.vetting.models import Submission
from hub.vetting.pages.bench_words import (
    GRAVITIES,
    SEVERITIES,
    URGENCIES,
    standing_of,
    title_of,
)
from hub.vetting.pages.blueprint import pages
from hub.vetting.pages.kinds import STATES
from hub.vetting.queries import Gravity
from hub.vetting.rules import FindingState, Severity, SubmissionState, Urgency
from hub.vetting.verdict_schemas import SettleSchema
from hub.web.downloads import csv_download
from hub.web.fields import Choice, Identifier, Text, Yes
from hub.web.forms import Form
from hub.web.listing import Asked, Filter
from hub.web.render import done, render
from hub.words import Words, say, say_n

ON_THE_BENCH = (
    SubmissionState.HANDED_IN,
    SubmissionState.RETURNED,
    SubmissionState.APPROVED,
    SubmissionState.DECLINED,
)
FILTERS = (
    Filter("state", say("State"), Choice(SubmissionState), STATES.__getitem__),
    Filter("urgency", say("Seed"), Choice(Urgency), URGENCIES.__getitem__),
    Filter("taxon", say("Species"), Identifier(), lambda key: say("one only")),
    Filter("group", say("Group"), Identifier(), lambda key: say("one only")),
    Filter("open", say("Findings"), Choice(Gravity), GRAVITIES.__getitem__),
    Filter("mine", say("Decided by me"), Yes(), lambda value: say("yes")),
)
ALIKE = (
    Filter("check", say("Check"), Text(60), title_of),
    Filter("severity", say("Severity"), Choice(Severity), SEVERITIES.__getitem__),
)
HEAD = (
    say("Number"),
    say("Species"),
    say("Population"),
    say("Group"),
    say("State"),
    say("Seed"),
    say("Due at the bank"),
    say("Arrived at the bank"),
    say("Handed in"),
    say("Open stops"),
    say("Open queries"),
    say("Open notes"),
)


@pages.get("/bench", needs=Right.SUBMISSION_BENCH)
def bench(work: Work) -> Response:
    asked = Asked.of(FILTERS, queries.BENCH_ORDERS)
    statement = queries.bench(work, **asked.values)
    if asked.wants_csv:
        rows = asked.everything(work, statement)
        return csv_download("bench", HEAD, lines(work, rows, queries.open_notes(work, submissions_of(rows))))
    state = asked.values["state"] or SubmissionState.HANDED_IN
    page = asked.page(work, statement)
    taxa, groups = queries.bench_choices(work, state)
    return render(
        "vetting/bench.html",
        asked=asked,
        page=page,
        state=state,
        tabs=[(each, STATES[each], asked.url(state=tab_of(each), mine="")) for each in ON_THE_BENCH],
        notes=queries.open_notes(work, submissions_of(page.items)),
        choices={"taxon": taxa, "group": groups, "urgency": URGENCIES.items(), "open": GRAVITIES.items()},
        urgencies=URGENCIES,
        standing_of=lambda each: standing_of(each, work.now),
        waiting=queries.count_waiting(work),
        elsewhere=queries.waiting_elsewhere(work) if may(work.scope, Right.RULE_OVERRIDE) else None,
        counted=queries.COUNTED,
    )


def tab_of(state: SubmissionState) -> str:
    """What the address says of a tab; the first needs no word."""
    return "" if state is SubmissionState.HANDED_IN else state.value


def submissions_of(rows: Sequence[Any]) -> list[Submission]:
    return [row[0] for row in rows]


def lines(work: Work, rows: Sequence[Any], notes: dict[Any, int]) -> Iterator[tuple[object, ...]]:
    """The lines of the list as a file, its instants by the bank's own clock with their difference to UTC."""
    for submission, taxon, group, population in rows:
        yield (
            submission.number,
            taxon.canonical,
            population,
            group,
            STATES[submission.state],
            URGENCIES[submission.urgency],
            local(work, submission.deadline_at),
            local(work, submission.arrived_at),
            local(work, submission.handed_in_at),
            submission.open_stops,
            submission.open_queries,
            notes.get(submission.id, 0),
        )


def local(work: Work, moment: datetime | None) -> str:
    """An instant as ISO 8601 by the bank's clock: ``2031-07-19T12:15+02:00``."""
    return moment.astimezone(work.zone).isoformat(timespec="minutes") if moment else ""


@pages.get("/bench/findings", needs=Right.SUBMISSION_BENCH)
def findings(work: Work) -> Response:
    return alike(work, Form(SettleSchema()))


def alike(work: Work, form: Form) -> Response:
    """All that is open, by check and severity; with both named, every finding of them."""
    asked = Asked.of(ALIKE, queries.ALIKE_ORDERS)
    check, severity = asked.values["check"], asked.values["severity"]
    if not check or severity is None:
        groups = [(row, title_of(row.check)) for row in queries.alike(work)]
        return render("vetting/bench_findings.html", groups=groups, form=form)
    return render(
        "vetting/bench_alike.html",
        asked=asked,
        page=asked.page(work, queries.findings_alike(work, check=check, severity=severity)),
        check=check,
        severity=severity,
        title=title_of(check),
        form=form,
        may_vet=may(work.scope, Right.SUBMISSION_VET),
        read=Words.from_json,
    )


@pages.post("/bench/findings", needs=Right.SUBMISSION_VET)
def settle_alike(work: Work) -> Response:
    form = Form.sent(SettleSchema())
    with form.answering():
        return done(settled(actions.settle(work, **form.data), form.data["state"]), url_for(".findings"))
    return alike(work, form)


def settled(n: int, state: FindingState) -> Words:
    """What the next page says of it."""
    if state is FindingState.OPEN:
        return say_n("{n} finding is open again.", "{n} findings are open again.", n=n)
    if state is FindingState.RESOLVED:
        return say_n("{n} finding is resolved.", "{n} findings are resolved.", n=n)
    return say_n("{n} finding is overruled.", "{n} findings are overruled.", n=n)
