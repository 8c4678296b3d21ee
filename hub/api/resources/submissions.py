"""Submissions: begun under a sheet, kept as drafts, handed in, withdrawn; with everything handed in."""

from __future__ import annotations

from hashlib import sha256
from typing import Any
from uuid import UUID

from marshmallow import fields
from sqlalchemy import Select, select

from hub.api.blueprint import api
from hub.api.listing import Asked, listing
from hub.api.rows import only, said_in, where_given
from hub.api.sending import key_sent
from hub.api.shown import Moment, Shown
from hub.db.work import Work
from hub.groups.models import Group
from hub.rights.right import Right
from hub.sites.models import Population
from hub.sites.readings import exact_place_read
from hub.taxa.models import Taxon
from hub.vetting import actions, queries
from hub.vetting.collection import Collection
from hub.vetting.draft import typed_in
from hub.vetting.models import Revision, Submission
from hub.vetting.queries.bench import URGENT
from hub.vetting.rules import SubmissionState, Urgency
from hub.vetting.schemas import CollectionSchema
from hub.web.caller import caller
from hub.web.fields import Choice, Identifier, Rows, Schema, Text
from hub.web.paging import Page
from hub.words import say

SUBMISSIONS = listing(
    "Submissions",
    queries.ORDERS | {"urgent": URGENT},
    state=Choice(SubmissionState),
    urgency=Choice(Urgency),
    taxon=Identifier(),
    group=Identifier(),
    adoption=Identifier(),
    sheet=Identifier(),
)
ONE = "/submissions/<uuid:submission_id>"
EXAMPLE = {
    "collected_on": "2031-07-12",
    "people": 6,
    "latitude": 47.8,
    "longitude": -28.2,
    "uncertainty_m": 5,
    "handling": "by_mother",
    "tallies": [{"flag": "A1", "ripe_fruits": 30, "fruits_taken": 2, "seeds": 40}],
    "total_seeds": 40,
    "container": "paper_bag",
    "after_care": "air_dried",
}


class SubmissionShown(Shown):
    """A collection handed in, or about to be. Counts of findings are the bank's own, else null."""

    id = fields.UUID(attribute="Submission.id")
    number = fields.String(attribute="Submission.number")
    state = Choice(SubmissionState, attribute="Submission.state")
    revision = fields.Integer(attribute="Submission.revision")
    group_id = fields.UUID(attribute="Submission.group_id")
    group = fields.String()
    sheet_id = fields.UUID(attribute="Submission.sheet_id")
    adoption_id = fields.UUID(attribute="Submission.adoption_id")
    population_id = fields.UUID(attribute="Submission.population_id")
    population = fields.String(allow_none=True)
    taxon_id = fields.UUID(attribute="Submission.taxon_id")
    scientific_name = fields.String(attribute="Taxon.scientific_name")
    urgency = Choice(Urgency, attribute="Submission.urgency")
    deadline_at = Moment(attribute="Submission.deadline_at", allow_none=True)
    said_arrived_on = fields.Date(attribute="Submission.said_arrived_on", allow_none=True)
    arrived_at = Moment(attribute="Submission.arrived_at", allow_none=True)
    begun_at = Moment(attribute="Submission.begun_at")
    handed_in_at = Moment(attribute="Submission.handed_in_at", allow_none=True)
    decided_at = Moment(attribute="Submission.decided_at", allow_none=True)
    open_stops = fields.Function(
        lambda row: at_bank(row.Submission.open_stops), metadata={"type": ["integer", "null"]}
    )
    open_queries = fields.Function(
        lambda row: at_bank(row.Submission.open_queries), metadata={"type": ["integer", "null"]}
    )


def at_bank(number: int) -> int | None:
    """A number that the bank alone sees: a group is shown the findings that a curator shares."""
    return number if caller().scope.own_bank_id else None


class RevisionShown(Shown):
    """What was handed in at one time, for good."""

    number = fields.Integer()
    handed_in_at = Moment()
    data = fields.Dict(metadata={"description": "As it was handed in: see the body of hand-in."})


class BoxShown(Shown):
    """One box of the form with exactly what was typed into it."""

    name = fields.Function(lambda pair: pair[0], metadata={"type": "string"})
    text = fields.Function(lambda pair: pair[1], metadata={"type": "string"})


class BeginSubmissionSchema(Schema):
    """Which sheet the collection was made under."""

    sheet_id = Identifier(required=True)


class BoxGivenSchema(Schema):
    """One box of the form, right or wrong."""

    name = Text(80, required=True)
    text = fields.String(required=True)


class DraftSchema(Schema):
    """All boxes of the form."""

    boxes = Rows(BoxGivenSchema, most=6000)


def seen(work: Work) -> Select[Any]:
    """The submissions that this seat may see; a draft is its group's own."""
    found: Any = (
        select(Submission, Taxon, Group.name.label("group"), Population.code.label("population"))
        .join(Taxon, Taxon.id == Submission.taxon_id)
        .join(Group, Group.id == Submission.group_id)
        .outerjoin(Population, Population.id == Submission.population_id)
    )
    return found.where(Submission.revision > 0) if work.scope.own_bank_id else found


@api.shows(
    "/submissions",
    needs=Right.SUBMISSION_READ,
    summary=say("The submissions that this seat may see"),
    asks=SUBMISSIONS,
    gives=SubmissionShown(),
    paged=True,
)
def submissions(work: Work, asked: Asked) -> Page:
    wanted = dict(asked.filters)
    words = said_in(wanted.pop("search"), Submission.number, Taxon.canonical, Group.name, Population.code)
    state, urgency = wanted.pop("state"), wanted.pop("urgency")
    named = {getattr(Submission, f"{name}_id"): value for name, value in wanted.items()}
    named |= {Submission.state: state, Submission.urgency: urgency}
    return asked.page(work, seen(work).where(words, *where_given(named)))


@api.shows(ONE, needs=Right.SUBMISSION_READ, summary=say("One submission"), gives=SubmissionShown())
def submission(work: Work, submission_id: UUID) -> Any:
    return only(work, seen(work).where(Submission.id == submission_id))


@api.makes(
    "/submissions",
    needs=Right.SUBMISSION_WRITE,
    summary=say("Begin a submission under a sheet"),
    takes=BeginSubmissionSchema(),
    gives=SubmissionShown(),
    leads_to="submission",
)
def begin_submission(work: Work, sent: dict[str, Any]) -> Any:
    key = sha256(f"{work.scope.person_id} {key_sent()}".encode()).hexdigest()
    begun = actions.begin(work, sheet_id=sent["sheet_id"], sent_key=key)
    work.db.flush()
    return submission(work, begun.id)


@api.shows(
    f"{ONE}/draft",
    needs=Right.SUBMISSION_WRITE,
    summary=say("What was typed so far"),
    gives=BoxShown(),
    many=True,
)
def draft(work: Work, submission_id: UUID) -> list[tuple[str, str]]:
    return typed_in(queries.get(work, submission_id).draft)


@api.changes(
    f"{ONE}/draft",
    method="PUT",
    needs=Right.SUBMISSION_WRITE,
    summary=say("Keep what was typed, right or wrong"),
    takes=DraftSchema(),
    gives=BoxShown(),
    many=True,
    current=draft,
    example={"boxes": [{"name": "collected_on", "text": "2031-07-12"}]},
)
def save_draft(work: Work, submission_id: UUID, sent: dict[str, Any]) -> list[tuple[str, str]]:
    typed = [(box["name"], box["text"]) for box in sent["boxes"]]
    return typed_in(actions.save_draft(work, submission_id=submission_id, draft=typed).draft)


@api.moves(
    f"{ONE}/hand-in",
    needs=Right.SUBMISSION_HAND_IN,
    summary=say("Hand a collection in"),
    takes=CollectionSchema(),
    gives=SubmissionShown(),
    example=EXAMPLE,
)
def hand_in_submission(work: Work, submission_id: UUID, sent: Collection) -> Any:
    actions.hand_in(work, submission_id=submission_id, data=sent)
    return submission(work, submission_id)


api.verb(
    f"{ONE}/withdraw",
    name="withdraw_submission",
    does=actions.withdraw,
    shows=submission,
    needs=Right.SUBMISSION_HAND_IN,
    summary=say("Give a draft up"),
    gives=SubmissionShown(),
)


@api.shows(
    f"{ONE}/revisions",
    needs=Right.SUBMISSION_READ,
    summary=say("What was handed in each time, the first first"),
    gives=RevisionShown(),
    many=True,
)
def revisions(work: Work, submission_id: UUID) -> list[Revision]:
    found = submission(work, submission_id)
    if work.scope.own_bank_id:
        exact_place_read(work, found.Submission, [found.Taxon])
    return queries.revisions(work, found.Submission.id)
