"""Lots of an accession, where they are kept, and the ledger of their seed."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from marshmallow import fields

from hub.accessions import actions, queries
from hub.accessions.models import Lot, LotEntry
from hub.accessions.rules import EntryKind, LotKind
from hub.accessions.schemas import EntrySchema, PlacesSchema
from hub.api.blueprint import api
from hub.api.shown import Count, Moment, Shown
from hub.db.work import Work
from hub.rights.right import Right
from hub.web.fields import Choice, Schema, Text
from hub.words import say

ONE = "/lots/<uuid:lot_id>"


class LotShown(Shown):
    """Seed of one accession, or of one maternal line of it, in one container."""

    id = fields.UUID()
    accession_id = fields.UUID()
    label = fields.String()
    kind = Choice(LotKind)
    mother = fields.String()
    balance_seeds = Count("seeds")
    container = fields.String()
    place = fields.String()


class EntryShown(Shown):
    """One entry of the seed ledger: positive in, negative out."""

    id = fields.UUID()
    lot_id = fields.UUID()
    kind = Choice(EntryKind)
    seeds = fields.Integer(metadata={"x-unit": "seeds"})
    estimated = fields.Boolean()
    at = Moment()
    why = fields.String()


class LotPlacedSchema(Schema):
    """What a lot is in and where it is kept; what is left out stays as it is."""

    container = Text(200, load_default=None)
    place = Text(200, load_default=None)


@api.shows(
    "/accessions/<uuid:accession_id>/lots",
    needs=Right.LOT_READ,
    summary=say("The lots of an accession"),
    gives=LotShown(),
    many=True,
)
def lots(work: Work, accession_id: UUID) -> list[Lot]:
    return queries.lots_of(work, queries.get(work, accession_id).id)


@api.shows(ONE, needs=Right.LOT_READ, summary=say("One lot"), gives=LotShown())
def lot(work: Work, lot_id: UUID) -> Lot:
    return queries.get_lot(work, lot_id)


@api.changes(
    ONE,
    needs=Right.LOT_WORK,
    summary=say("Say where a lot is kept"),
    takes=LotPlacedSchema(),
    gives=LotShown(),
    current=lot,
    example={"container": "foil bag", "place": "Freezer 2, drawer 4"},
)
def place_lot(work: Work, lot_id: UUID, sent: dict[str, Any]) -> Lot:
    return actions.place_lot(work, lot_id=lot_id, **sent)


@api.moves(
    "/accessions/<uuid:accession_id>/places",
    needs=Right.LOT_WORK,
    summary=say("Say of many lots of an accession what they are in and where they are kept, all or none"),
    takes=PlacesSchema(),
    gives=LotShown(),
    many=True,
)
def place_lots(work: Work, accession_id: UUID, sent: dict[str, Any]) -> list[Lot]:
    actions.place_lots(work, accession_id=queries.get(work, accession_id).id, **sent)
    work.db.flush()
    return queries.lots_of(work, accession_id)


@api.shows(
    f"{ONE}/entries",
    needs=Right.LOT_READ,
    summary=say("The ledger of a lot, oldest first"),
    gives=EntryShown(),
    many=True,
)
def entries(work: Work, lot_id: UUID) -> list[LotEntry]:
    return queries.entries_of(work, queries.get_lot(work, lot_id).id)


@api.makes(
    f"{ONE}/entries",
    needs=Right.LOT_WORK,
    summary=say("Enter seeds that came or went"),
    takes=EntrySchema(),
    gives=EntryShown(),
    example={"booking": "tested", "seeds": 50, "counted": True, "why": "germination test"},
)
def enter(work: Work, lot_id: UUID, sent: dict[str, Any]) -> LotEntry:
    return actions.enter(work, lot_id=lot_id, **sent)
