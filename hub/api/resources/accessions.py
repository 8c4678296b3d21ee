"""Accessions: the book, their moves, and their labels."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from marshmallow import Schema as AnySchema
from marshmallow import fields
from werkzeug.wrappers import Response

from hub.accessions import actions, queries
from hub.accessions.labels import GRIDS, Layout, labels_of, sheets
from hub.accessions.models import Accession
from hub.accessions.rules import AccessionState
from hub.accessions.schemas import DeaccessionSchema, LabelsSchema, MoveSchema
from hub.api.blueprint import api
from hub.api.listing import Asked, listing
from hub.api.rows import only
from hub.api.shown import Count, Moment, Shown
from hub.db.work import Work
from hub.rights.right import Right
from hub.web.downloads import pdf_download
from hub.web.fields import Choice, Identifier, Whole
from hub.web.paging import Page
from hub.web.pdf import pdf_page
from hub.words import NotFound, Words, say

BOOK = listing(
    "Accessions",
    queries.BOOK_ORDERS,
    taxon=Identifier(),
    group=Identifier(),
    state=Choice(AccessionState),
    year=Whole(1900, 2200),
)
ONE = "/accessions/<uuid:accession_id>"


class AccessionShown(Shown):
    """One vetted collection, numbered for good."""

    id = fields.UUID(attribute="Accession.id")
    number = fields.String(attribute="Accession.number")
    year = fields.Integer(attribute="Accession.year")
    state = Choice(AccessionState, attribute="Accession.state")
    submission_id = fields.UUID(attribute="Accession.submission_id")
    group_id = fields.UUID(attribute="Accession.group_id")
    group = fields.String()
    taxon_id = fields.UUID(attribute="Accession.taxon_id")
    scientific_name = fields.String(attribute="Taxon.scientific_name")
    population_id = fields.UUID(attribute="Accession.population_id")
    collected_on = fields.Date(attribute="Accession.collected_on")
    mothers = Count("plants", attribute="Accession.mothers")
    accessioned_at = Moment(attribute="Accession.accessioned_at")
    reason = fields.String(attribute="Accession.reason")


@api.shows(
    "/accessions",
    needs=Right.ACCESSION_READ,
    summary=say("The accession book of the bank; a group sees its own"),
    asks=BOOK,
    gives=AccessionShown(),
    paged=True,
)
def accession_book(work: Work, asked: Asked) -> Page:
    return asked.page(work, queries.book(work, **asked.filters))


@api.shows(ONE, needs=Right.ACCESSION_READ, summary=say("One accession"), gives=AccessionShown())
def accession(work: Work, accession_id: UUID) -> Any:
    return only(work, queries.book(work).where(Accession.id == accession_id))


def declare_move(verb: str, wanted: AccessionState, takes: AnySchema, summary: Words) -> None:
    """An operation for one move of an accession."""

    def moved(work: Work, accession_id: UUID, reason: str) -> None:
        actions.move(work, accession_id=accession_id, wanted=wanted, reason=reason)

    api.verb(
        f"{ONE}/{verb}",
        name=f"{verb}_accession",
        does=moved,
        shows=accession,
        needs=Right.LOT_WORK,
        summary=summary,
        takes=takes,
        gives=AccessionShown(),
    )


declare_move("store", AccessionState.STORED, MoveSchema(), say("Note that it is stored"))
declare_move("living", AccessionState.LIVING, MoveSchema(), say("Note that it grows on, living"))
declare_move("exhaust", AccessionState.EXHAUSTED, MoveSchema(), say("Note that all of it is used"))
declare_move("deaccession", AccessionState.DEACCESSIONED, DeaccessionSchema(), say("Take it out of the bank"))


@api.shows(
    f"{ONE}/labels.pdf",
    needs=Right.LOT_READ,
    summary=say("Labels for the containers of an accession"),
    asks=LabelsSchema(),
    binary="application/pdf",
)
def labels(work: Work, accession_id: UUID, asked: dict[str, Any]) -> Response:
    found = queries.get(work, accession_id)
    plan = labels_of(work, found, lot=asked["lot"], copies=asked["copies"] or 1)
    if not plan:
        raise NotFound("lot")
    grid = GRIDS[asked["layout"] or Layout.A4_24]
    body = pdf_page(
        work.settings,
        "accessions/labels_pdf.html",
        accession=found,
        grid=grid,
        sheets=list(sheets(plan, grid, asked["used"] or 0)),
    )
    return pdf_download(f"Labels {found.number}", body)
