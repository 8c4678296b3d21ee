"""A sheet and its field form as PDF."""

from __future__ import annotations

from uuid import UUID

from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.protocols import listed, queries
from hub.protocols.imprint import Imprint, ended_words
from hub.protocols.laid_out import Version
from hub.protocols.models import IssuedSheet
from hub.protocols.pages.blueprint import pages
from hub.protocols.pages.sheet import asked_version
from hub.protocols.printing import form_pdf, sheet_pdf
from hub.rights.right import Right
from hub.web.downloads import pdf_download


@pages.get("/sheets/<uuid:sheet_id>/sheet.pdf", needs=Right.SHEET_READ)
def sheet_on_paper(work: Work, sheet_id: UUID) -> Response:
    issued, version = queries.get_sheet(work, sheet_id), asked_version()
    body = sheet_pdf(work.settings, queries.sheet_of(issued), imprint(work, issued), version)
    name = issued.number if version is Version.FULL else f"{issued.number}-{version.value}"
    return pdf_download(name, body)


@pages.get("/sheets/<uuid:sheet_id>/form.pdf", needs=Right.SHEET_READ)
def form_on_paper(work: Work, sheet_id: UUID) -> Response:
    issued = queries.get_sheet(work, sheet_id)
    body = form_pdf(work.settings, queries.sheet_of(issued), imprint(work, issued))
    return pdf_download(f"{issued.number}-form", body)


def imprint(work: Work, issued: IssuedSheet) -> Imprint:
    """The frame of an issued sheet. The place stands in it by name alone."""
    around, successor = listed.around(work, issued), listed.replaced_by(work, issued)
    return Imprint(
        taxon=around.taxon.canonical,
        common_name=around.taxon.vernacular,
        bank=around.bank.name,
        group=around.group.name,
        population=issued.case["population"]["name"],
        number=issued.number,
        address=f"{work.settings.base_url}/sheets/by-number/{issued.number}",
        site=around.site.name if around.site else "",
        bank_email=around.bank.email,
        law_note=around.bank.law_note,
        issued_on=issued.issued_at.astimezone(work.zone).date(),
        ended=ended_words(issued.state, successor.number if successor else ""),
    )
