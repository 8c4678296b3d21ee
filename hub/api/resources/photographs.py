"""Photographs of a submission. Where a camera stood is kept privately and never leaves the hub here."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from marshmallow import fields
from werkzeug.wrappers import Response

from hub.api.blueprint import api
from hub.api.resources.submissions import submission
from hub.api.shown import Count, Moment, Shown
from hub.db.work import Work
from hub.rights.right import Right
from hub.vetting import actions, queries
from hub.vetting.models import Photograph
from hub.vetting.rules import PhotographKind
from hub.vetting.schemas import PhotographSchema
from hub.web.downloads import download
from hub.web.fields import Choice, Upload
from hub.web.uploads import picture
from hub.words import say

OF_SUBMISSION = "/submissions/<uuid:submission_id>/photographs"
ONE = "/photographs/<uuid:photograph_id>"
WEBP = "image/webp"


class PhotographShown(Shown):
    """A photograph, drawn anew without anything hidden in it."""

    id = fields.UUID()
    submission_id = fields.UUID()
    kind = Choice(PhotographKind)
    caption = fields.String()
    width = Count("pixels")
    height = Count("pixels")
    added_at = Moment()
    removed_at = Moment(allow_none=True)


class PhotographSentSchema(PhotographSchema):
    """One photograph and what it shows."""

    photograph = Upload(picture, required=True)


class PhotographDescribedSchema(PhotographSchema):
    """What is said anew of a photograph."""


@api.shows(
    OF_SUBMISSION,
    needs=Right.SUBMISSION_READ,
    summary=say("The photographs of a submission"),
    gives=PhotographShown(),
    many=True,
)
def photographs(work: Work, submission_id: UUID) -> list[Photograph]:
    return queries.photographs(work, submission(work, submission_id).Submission.id)


@api.makes(
    OF_SUBMISSION,
    needs=Right.SUBMISSION_WRITE,
    summary=say("Add a photograph"),
    takes=PhotographSentSchema(),
    multipart=True,
    gives=PhotographShown(),
    leads_to="photograph",
)
def add_photograph(work: Work, submission_id: UUID, sent: dict[str, Any]) -> Photograph:
    upload = sent.pop("photograph")
    return actions.add_photograph(work, submission_id=submission_id, upload=upload, **sent)


@api.shows(ONE, needs=Right.SUBMISSION_READ, summary=say("One photograph"), gives=PhotographShown())
def photograph(work: Work, photograph_id: UUID) -> Photograph:
    found = queries.get_photograph(work, photograph_id)
    submission(work, found.submission_id)
    return found


@api.shows(f"{ONE}/file", needs=Right.SUBMISSION_READ, summary=say("The picture itself"), binary=WEBP)
def photograph_file(work: Work, photograph_id: UUID) -> Response:
    found = photograph(work, photograph_id)
    return download(work.files.read(found.file), f"{found.id}.webp", WEBP)


@api.changes(
    ONE,
    needs=Right.SUBMISSION_WRITE,
    summary=say("Say what a photograph shows"),
    takes=PhotographDescribedSchema(partial=True),
    gives=PhotographShown(),
    current=photograph,
    example={"caption": "Ripe capsule"},
)
def describe_photograph(work: Work, photograph_id: UUID, sent: dict[str, Any]) -> Photograph:
    held = queries.get_photograph(work, photograph_id)
    told = {"kind": held.kind, "caption": held.caption} | sent
    return actions.describe_photograph(work, photograph_id=photograph_id, **told)


@api.changes(
    ONE,
    method="DELETE",
    needs=Right.SUBMISSION_WRITE,
    summary=say("Take a photograph away; it can be put back"),
    gives=PhotographShown(),
    current=photograph,
)
def remove_photograph(work: Work, photograph_id: UUID) -> Photograph:
    return actions.remove_photograph(work, photograph_id=photograph_id)


api.verb(
    f"{ONE}/restore",
    name="restore_photograph",
    does=actions.restore_photograph,
    shows=photograph,
    needs=Right.SUBMISSION_WRITE,
    summary=say("Put a photograph back"),
    gives=PhotographShown(),
)
