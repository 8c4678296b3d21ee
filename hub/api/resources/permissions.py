"""The owner's permission: asked, granted or refused, withdrawn; with the signed paper."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from marshmallow import fields
from werkzeug.wrappers import Response

from hub.api.blueprint import api
from hub.api.shown import Shown
from hub.db.work import Work
from hub.rights.right import Right
from hub.sites import actions, queries
from hub.sites.models import Permission
from hub.sites.rules import PermissionState
from hub.sites.schemas import AgreeSchema, EndSchema, GrantSchema, RefuseSchema, SignedSchema
from hub.web.downloads import download
from hub.web.fields import Choice
from hub.words import NotFound, say

OF_SITE = "/sites/<uuid:site_id>/permissions"
ONE = "/permissions/<uuid:permission_id>"


class PermissionShown(Shown):
    """Where the owner's permission stands."""

    id = fields.UUID()
    site_id = fields.UUID()
    state = Choice(PermissionState)
    asked_on = fields.Date(allow_none=True)
    answered_on = fields.Date(allow_none=True)
    starts_on = fields.Date(allow_none=True)
    ends_on = fields.Date(allow_none=True)
    withdrawn_on = fields.Date(allow_none=True)
    conditions = fields.String()
    signed = fields.Function(lambda permission: bool(permission.signed_file), metadata={"type": "boolean"})


class PermissionGrantSchema(GrantSchema):
    """The owner's yes. The signed paper is sent by itself."""

    class Meta:
        exclude = ("signed_file",)


@api.shows(
    OF_SITE,
    needs=Right.SITE_READ,
    summary=say("Every permission a site ever had, the newest first"),
    gives=PermissionShown(),
    many=True,
)
def permissions(work: Work, site_id: UUID) -> list[Permission]:
    return queries.permissions_of(work, queries.get_site(work, site_id).id)


@api.shows(ONE, needs=Right.SITE_READ, summary=say("One permission"), gives=PermissionShown())
def permission(work: Work, permission_id: UUID) -> Permission:
    return queries.get_permission(work, permission_id)


@api.makes(
    OF_SITE,
    needs=Right.SITE_EDIT,
    summary=say("Note that the owner was asked"),
    takes=AgreeSchema(),
    gives=PermissionShown(),
    leads_to="permission",
    example={"on": "2031-05-02"},
)
def ask_permission(work: Work, site_id: UUID, sent: dict[str, Any]) -> Permission:
    return actions.ask_permission(work, site_id=site_id, **sent)


for verb, takes, summary in (
    ("grant", PermissionGrantSchema(), say("The owner said yes")),
    ("refuse", RefuseSchema(), say("The owner said no")),
    ("withdraw", EndSchema(), say("The owner took the permission back")),
):
    api.verb(
        f"{ONE}/{verb}",
        name=f"{verb}_permission",
        does=getattr(actions, f"{verb}_permission"),
        shows=permission,
        needs=Right.SITE_EDIT,
        summary=summary,
        takes=takes,
        gives=PermissionShown(),
    )


@api.changes(
    f"{ONE}/signed-file",
    method="PUT",
    needs=Right.SITE_EDIT,
    summary=say("Keep the signed paper; If-Match is the tag of the permission"),
    takes=SignedSchema(),
    multipart=True,
    gives=PermissionShown(),
    current=permission,
)
def keep_signed_file(work: Work, permission_id: UUID, sent: dict[str, Any]) -> Permission:
    paper = sent["signed_file"]
    queries.get_permission(work, permission_id)
    key = work.files.keep(paper.body, kind="permissions", ending=paper.ending)
    return actions.keep_signed_file(work, permission_id=permission_id, signed_file=key)


@api.shows(
    f"{ONE}/signed-file",
    needs=Right.SITE_READ,
    summary=say("The signed paper: a PDF, or a picture of it"),
    binary="application/octet-stream",
)
def signed_file(work: Work, permission_id: UUID) -> Response:
    key = queries.get_permission(work, permission_id).signed_file
    if not key:
        raise NotFound("signed file")
    ending = key.rpartition(".")[2]
    return download(work.files.read(key), f"permission.{ending}", "application/octet-stream")
