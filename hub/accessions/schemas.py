"""What the forms about accessions ask for."""

from __future__ import annotations

from typing import Any

from marshmallow import post_load

from hub.accessions.labels import Layout
from hub.accessions.rules import MOST_SEEDS, Booking, signed
from hub.web.fields import Choice, Identifier, LongText, Rows, Schema, Text, Whole, Yes
from hub.words import say

SEEDS = say("seeds")
MOST_COPIES = 20  # of one label: inside, outside, for the book; more is a slip


class ApproveSchema(Schema):
    """Yes to a submission, with a word of thanks if wanted, even for seed that nobody noted as arrived."""

    remark = LongText(2000, load_default="")
    without_arrival = Yes()


class MoveSchema(Schema):
    """A move of an accession that may say why."""

    reason = LongText(1000, load_default="")


class DeaccessionSchema(Schema):
    """The one move that must say why."""

    reason = LongText(1000, required=True)


class PlaceSchema(Schema):
    """What a lot is in and where it is kept, in the bank's own words."""

    container = Text(200, load_default="")
    place = Text(200, load_default="")


class LotRow(PlaceSchema):
    """One line of the table of lots."""

    lot_id = Identifier(required=True)


class PlacesSchema(Schema):
    """Containers and places of many lots at once; the first two fill what is left empty below them."""

    all_container = Text(200, load_default="")
    all_place = Text(200, load_default="")
    lots = Rows(LotRow, least=1)

    @post_load
    def filled(self, data: dict[str, Any], **kwargs: Any) -> dict[str, Any]:
        """Every line with what was said for all where it says nothing itself."""
        common = {"container": data["all_container"], "place": data["all_place"]}
        lines = [row | {name: row[name] or common[name] for name in common} for row in data["lots"]]
        return {"lots": lines}


class EntrySchema(Schema):
    """One entry of the seed ledger, as a person gives it: a kind and a number of seeds above nothing."""

    booking = Choice(Booking, required=True)
    seeds = Whole(1, MOST_SEEDS, unit=SEEDS, required=True)
    counted = Yes()
    why = LongText(1000, required=True)

    @post_load
    def made(self, data: dict[str, Any], **kwargs: Any) -> dict[str, Any]:
        """The kind and the sign that the ledger knows."""
        kind, seeds = signed(data["booking"], data["seeds"])
        return {"kind": kind, "seeds": seeds, "why": data["why"], "estimated": not data["counted"]}


class LabelsSchema(Schema):
    """Which labels, how many of each, on which sheet, and how many of its places are used up already."""

    layout = Choice(Layout, load_default=Layout.A4_24)
    used = Whole(0, 23, load_default=0)
    copies = Whole(1, MOST_COPIES, load_default=1)
    lot = Identifier()
