"""What the forms about accessions ask for."""

from __future__ import annotations

from typing import Any

from marshmallow import post_load

from hub.accessions.labels import Layout
from hub.accessions.rules import MOST_SEEDS, Booking, signed
from hub.web.fields import Choice, Identifier, LongText, Schema, Text, Whole, Yes
from hub.words import say

SEEDS = say("seeds")


class ApproveSchema(Schema):
    """Yes to a submission, with a word of thanks if wanted."""

    remark = LongText(2000, load_default="")


class MoveSchema(Schema):
    """A move of an accession that may say why."""

    reason = LongText(1000, load_default="")


class DeaccessionSchema(Schema):
    """The one move that must say why."""

    reason = LongText(1000, required=True)


class PlaceSchema(Schema):
    """Where a lot is kept, in the bank's own words."""

    place = Text(200, load_default="")


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
    """Which labels, on which sheet, and how many places of the sheet are used up already."""

    layout = Choice(Layout, load_default=Layout.A4_24)
    used = Whole(0, 23, load_default=0)
    lot = Identifier()
