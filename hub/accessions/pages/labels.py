"""Labels of an accession: choose the sheet, then print."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from flask import request
from marshmallow import ValidationError
from werkzeug.exceptions import BadRequest
from werkzeug.wrappers import Response

from hub.accessions import queries
from hub.accessions.labels import GRIDS, Layout, labels_of, sheets
from hub.accessions.pages.blueprint import pages
from hub.accessions.schemas import LabelsSchema
from hub.db.work import Work
from hub.rights.right import Right
from hub.taxa.queries import get as get_taxon
from hub.web.downloads import pdf_download
from hub.web.forms import Form
from hub.web.limits import limited, minutes, person
from hub.web.pdf import pdf_page
from hub.web.render import render
from hub.words import NotFound, say

UNREADABLE = say("These labels cannot be set. Go back and choose the sheet and the places again.")


@pages.get("/accessions/<uuid:accession_id>/labels", needs=Right.LOT_READ)
def labels(work: Work, accession_id: UUID) -> Response:
    found = queries.get(work, accession_id)
    return render(
        "accessions/labels.html",
        form=Form(LabelsSchema(), {"lot": request.args.get("lot", type=UUID)}),
        accession=found,
        taxon=get_taxon(work, found.taxon_id),
        lots=[(lot.id, lot.label) for lot in queries.lots_of(work, accession_id)],
        layouts=[(layout, layout.words) for layout in Layout],
        most_used=max(grid.places for grid in GRIDS.values()) - 1,
    )


@pages.get("/accessions/<uuid:accession_id>/labels.pdf", needs=Right.LOT_READ)
@limited("papers", times=120, within=minutes(10), by=person, reads=True)
def labels_pdf(work: Work, accession_id: UUID) -> Response:
    found = queries.get(work, accession_id)
    wanted = asked()
    plan = labels_of(work, found, lot=wanted["lot"], copies=wanted["copies"])
    if not plan:
        raise NotFound("lot")
    grid = GRIDS[wanted["layout"]]
    body = pdf_page(
        work.settings,
        "accessions/labels_pdf.html",
        accession=found,
        grid=grid,
        sheets=list(sheets(plan, grid, wanted["used"])),
    )
    return pdf_download(f"Labels {found.number}", body)


def asked() -> dict[str, Any]:
    """What the address says of the labels. Raises BadRequest for what no form of ours would send."""
    given = {name: text for name, text in request.args.items() if text}
    try:
        found: dict[str, Any] = LabelsSchema().load(given)
    except ValidationError:
        raise BadRequest(UNREADABLE) from None  # type: ignore[arg-type]
    return found
