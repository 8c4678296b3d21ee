"""What the bank does with a submission: received, its findings settled, returned, declined, approved."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from marshmallow import fields

from hub.accessions import actions as accessions
from hub.accessions.schemas import ApproveSchema
from hub.api.blueprint import api
from hub.api.resources.accessions import AccessionShown, accession
from hub.api.resources.submissions import SubmissionShown, submission
from hub.api.shown import Moment, Said, Shown
from hub.db.work import Work
from hub.rights.right import Right
from hub.vetting import actions, queries
from hub.vetting.models import FindingRecord, Remark
from hub.vetting.rules import FindingState, RemarkKind, Severity
from hub.vetting.verdict_schemas import ArrivalSchema, DeclineSchema, ReturnSchema, SettleSchema
from hub.web.fields import Choice
from hub.words import NotFound, Words, say

ONE = "/submissions/<uuid:submission_id>"


class FindingShown(Shown):
    """What one check said of the newest revision, and what became of it."""

    id = fields.UUID()
    revision = fields.Integer()
    check = fields.String()
    about = fields.String(metadata={"description": "The mother or photograph it is about, if one."})
    severity = Choice(Severity)
    words = fields.Function(
        lambda finding: Said().serialize("words", {"words": Words.from_json(finding.words)}),
        metadata={"type": "string"},
    )
    figures = fields.Dict()
    source = fields.String()
    state = Choice(FindingState)
    reason = fields.String()
    shared = fields.Boolean()


class RemarkShown(Shown):
    """What bank and group wrote to each other."""

    id = fields.UUID()
    kind = Choice(RemarkKind)
    text = fields.String()
    at = Moment()
    by_name = fields.String()
    from_bank = fields.Boolean()


@api.shows(
    f"{ONE}/findings",
    needs=Right.SUBMISSION_READ,
    summary=say("What the checks say, worst first; a group sees what the bank shared with it"),
    gives=FindingShown(),
    many=True,
)
def findings(work: Work, submission_id: UUID) -> list[FindingRecord]:
    found = submission(work, submission_id).Submission
    whole = work.scope.own_bank_id is not None
    return queries.findings(work, found) if whole else queries.shared_findings(work, found)


@api.moves(
    f"{ONE}/findings/settle",
    needs=Right.SUBMISSION_VET,
    summary=say("Resolve or overrule findings, or open them again"),
    takes=SettleSchema(),
    gives=FindingShown(),
    many=True,
)
def settle_findings(work: Work, submission_id: UUID, sent: dict[str, Any]) -> list[FindingRecord]:
    own = {each.id for each in findings(work, submission_id)}
    if not own.issuperset(sent["finding_ids"]):
        raise NotFound("finding")
    actions.settle(work, **sent)
    work.db.flush()
    return findings(work, submission_id)


@api.shows(
    f"{ONE}/remarks",
    needs=Right.SUBMISSION_READ,
    summary=say("What bank and group wrote to each other, the first first"),
    gives=RemarkShown(),
    many=True,
)
def remarks(work: Work, submission_id: UUID) -> list[Remark]:
    return queries.remarks(work, submission(work, submission_id).Submission.id)


def declare_verdict(verb: str, does: Any, takes: Any, summary: Words) -> None:
    """An operation for one verdict on a submission that the bank was given."""
    api.verb(
        f"{ONE}/{verb}",
        name=f"{verb}_submission",
        does=on_the_bench(does),
        shows=submission,
        needs=Right.SUBMISSION_VET,
        summary=summary,
        takes=takes,
        gives=SubmissionShown(),
    )


def on_the_bench(does: Any) -> Any:
    """An action on what the bank may see; a draft is not there for it."""

    def decide(work: Work, submission_id: UUID, **sent: Any) -> None:
        submission(work, submission_id)
        does(work, submission_id=submission_id, **sent)

    return decide


declare_verdict("return", actions.send_back, ReturnSchema(), say("Send a submission back with remarks"))
declare_verdict("decline", actions.decline, DeclineSchema(), say("Decline a submission for good"))

api.verb(
    f"{ONE}/arrival",
    name="seed_arrived",
    does=on_the_bench(actions.seed_arrived),
    shows=submission,
    needs=Right.SUBMISSION_RECEIVE,
    summary=say("Note that the seed of a submission is at the bank, by the bank’s own clock"),
    takes=ArrivalSchema(),
    gives=SubmissionShown(),
    example={"day": "2031-07-14", "at": "09:30", "note": "bags whole and dry"},
)
api.verb(
    f"{ONE}/arrival/undo",
    name="undo_arrival",
    does=on_the_bench(actions.undo_arrival),
    shows=submission,
    needs=Right.SUBMISSION_RECEIVE,
    summary=say("Take the note of an arrival back"),
    gives=SubmissionShown(),
)


@api.moves(
    f"{ONE}/approve",
    status=201,
    needs=Right.SUBMISSION_VET,
    summary=say("Approve a submission: it becomes an accession"),
    takes=ApproveSchema(),
    gives=AccessionShown(),
    leads_to="accession",
)
def approve_submission(work: Work, submission_id: UUID, sent: dict[str, Any]) -> Any:
    submission(work, submission_id)
    made = accessions.approve(work, submission_id=submission_id, **sent)
    work.db.flush()
    return accession(work, made.id)
