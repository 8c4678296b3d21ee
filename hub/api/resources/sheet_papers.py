"""A sheet and its field form as PDF."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from werkzeug.wrappers import Response

from hub.api.blueprint import api
from hub.db.work import Work
from hub.protocols import queries
from hub.protocols.framed import imprint_for
from hub.protocols.laid_out import Version
from hub.protocols.printing import form_pdf, sheet_pdf
from hub.rights.right import Right
from hub.web.downloads import pdf_download
from hub.web.fields import Choice, Schema
from hub.words import say

PDF = "application/pdf"


class VersionSchema(Schema):
    """The way in which a sheet is set."""

    version = Choice(Version, load_default=Version.FULL)


@api.shows(
    "/sheets/<uuid:sheet_id>/sheet.pdf",
    needs=Right.SHEET_READ,
    summary=say("A sheet on paper: in full, in plain words, or in large print"),
    asks=VersionSchema(),
    binary=PDF,
)
def sheet_paper(work: Work, sheet_id: UUID, asked: dict[str, Any]) -> Response:
    issued = queries.get_sheet(work, sheet_id, body=False)
    version = asked["version"] or Version.FULL
    body = sheet_pdf(work, issued, imprint_for(work, issued), version)
    return pdf_download(f"{issued.number}-{version}", body)


@api.shows(
    "/sheets/<uuid:sheet_id>/form.pdf",
    needs=Right.SHEET_READ,
    summary=say("The field form of a sheet, with its tally table and tags"),
    binary=PDF,
)
def form_paper(work: Work, sheet_id: UUID) -> Response:
    issued = queries.get_sheet(work, sheet_id, body=False)
    body = form_pdf(work, issued, imprint_for(work, issued))
    return pdf_download(f"{issued.number}-form", body)
