"""A sheet and its field form as PDF."""

from __future__ import annotations

from uuid import UUID

from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.protocols import queries
from hub.protocols.framed import imprint_for
from hub.protocols.laid_out import Version
from hub.protocols.pages.blueprint import pages
from hub.protocols.pages.sheet import asked_version
from hub.protocols.printing import form_pdf, sheet_pdf
from hub.rights.right import Right
from hub.web.downloads import pdf_download


@pages.get("/sheets/<uuid:sheet_id>/sheet.pdf", needs=Right.SHEET_READ)
def sheet_on_paper(work: Work, sheet_id: UUID) -> Response:
    issued, version = queries.get_sheet(work, sheet_id, body=False), asked_version()
    body = sheet_pdf(work, issued, imprint_for(work, issued), version)
    name = issued.number if version is Version.FULL else f"{issued.number}-{version.value}"
    return pdf_download(name, body)


@pages.get("/sheets/<uuid:sheet_id>/form.pdf", needs=Right.SHEET_READ)
def form_on_paper(work: Work, sheet_id: UUID) -> Response:
    issued = queries.get_sheet(work, sheet_id, body=False)
    body = form_pdf(work, issued, imprint_for(work, issued))
    return pdf_download(f"{issued.number}-form", body)
