"""How a collection is read from a form or from JSON, and written down for good."""

from __future__ import annotations

from typing import Any

from marshmallow import ValidationError, fields, post_load, validates_schema

from hub.vetting.collection import AfterCare, Collection, Container, DrynessProof, Handling
from hub.vetting.rules import MOST_PHOTOGRAPHS, PhotographKind
from hub.web.fields import (
    Choice,
    Clock,
    Day,
    Identifier,
    Latitude,
    Longitude,
    LongText,
    Measure,
    Rows,
    Schema,
    Several,
    Text,
    Upload,
    Whole,
    Yes,
)
from hub.web.fields.plain import refusal
from hub.words import Words, say

MOST_SEEDS = 50_000_000
ONE_PLANTS_FRUITS = 100_000


class Figure(Measure):
    """A measured number that the checks reckon with: loads as float."""

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> Any:
        return float(super()._deserialize(value, attr, data, **kwargs))


class TallySchema(Schema):
    """One mother."""

    flag = Text(20, required=True)
    ripe_fruits = Whole(0, ONE_PLANTS_FRUITS, say("ripe fruits"))
    fruits_taken = Whole(0, ONE_PLANTS_FRUITS, say("fruits"), load_default=0)
    seeds = Whole(0, MOST_SEEDS, say("seeds"))


class BulkSchema(Schema):
    """All plants together."""

    plants = Whole(1, 1_000_000, say("plants"), required=True)
    fruits_taken = Whole(0, 10_000_000, say("fruits"))
    ripe_fruits_per_plant = Figure(say("ripe fruits a plant"), 0, ONE_PLANTS_FRUITS)


class CutTestSchema(Schema):
    """Seeds cut open in the field."""

    cut = Whole(1, 500, say("seeds"), required=True)
    filled = Whole(0, 500, say("seeds"), required=True)
    damaged = Whole(0, 500, say("seeds"), load_default=0)

    @validates_schema
    def adds_up(self, data: dict[str, Any], **kwargs: Any) -> None:
        if {"cut", "filled"} <= data.keys() and data["filled"] + (data.get("damaged") or 0) > data["cut"]:
            raise refusal(say("More seeds are filled or damaged than were cut."))


class VoucherSchema(Schema):
    """A pressed specimen."""

    number = Text(60, required=True)
    kept_at = Text(120, load_default="")


class CollectionSchema(Schema):
    """One collection handed in. Loads as ``Collection``, dumps as the document kept for good."""

    collected_on = Day(required=True)
    started_at = Clock()
    finished_at = Clock()
    people = Whole(1, 500, say("people"), required=True)
    crew_id = Identifier()
    latitude = Latitude(required=True)
    longitude = Longitude(required=True)
    uncertainty_m = Figure("m", 1, 50_000, required=True)
    handling = Choice(Handling, required=True)
    tallies = Rows(TallySchema, most=500)
    bulk = fields.Nested(BulkSchema, load_default=None, allow_none=True)
    total_seeds = Whole(1, MOST_SEEDS, say("seeds"), required=True)
    plants_seen = Whole(0, 10_000_000, say("plants"))
    plants_fruiting = Whole(0, 10_000_000, say("plants"))
    first_ripe_on = Day()
    already_shedding = fields.Boolean(load_default=None, allow_none=True)
    visits_before = Whole(0, 200, say("visits"))
    cut_test = fields.Nested(CutTestSchema, load_default=None, allow_none=True)
    seeds_per_fruit = Figure(say("seeds a fruit"), 0, 100_000)
    container = Choice(Container, required=True)
    after_care = Choice(AfterCare, required=True)
    drying_from = Day()
    drying_days = Figure(say("days"), 0, 730)
    dryness = Choice(DrynessProof, load_default=DrynessProof.NONE)
    dryness_rh_pct = Figure("%", 0, 100)
    frozen = Yes()
    frozen_on = Day()
    reached_bank_on = Day()
    hours_to_bank = Figure(say("hours"), 0, 24 * 60)
    identified_by = Text(120, load_default="")
    voucher = fields.Nested(VoucherSchema, load_default=None, allow_none=True)
    weather = Text(120, load_default="")
    notes = LongText(load_default="")

    @validates_schema
    def counts_what_was_taken(self, data: dict[str, Any], **kwargs: Any) -> None:
        """Seed kept by mother needs its tallies; bulk seed needs its number of plants."""
        if data.get("handling") is Handling.BY_MOTHER and not data.get("tallies"):
            raise field_refusal("tallies", say("Please give a row for each mother plant."))
        if data.get("handling") is Handling.BULK and not data.get("bulk"):
            raise field_refusal("bulk", say("Please say how many plants the seed came from."))

    @validates_schema
    def flags_are_unique(self, data: dict[str, Any], **kwargs: Any) -> None:
        flags = [tally["flag"].casefold() for tally in data.get("tallies") or []]
        twice = sorted({flag for flag in flags if flags.count(flag) > 1})
        if twice:
            raise field_refusal("tallies", say("Two mothers have the same flag: {flag}.", flag=twice[0]))

    @validates_schema
    def times_follow(self, data: dict[str, Any], **kwargs: Any) -> None:
        start, end = data.get("started_at"), data.get("finished_at")
        if start and end and end < start:
            raise field_refusal("finished_at", say("The end lies before the beginning."))

    @post_load
    def made(self, data: dict[str, Any], **kwargs: Any) -> Collection:
        crew = data.get("crew_id")
        return Collection.from_loaded(data | {"crew_id": str(crew) if crew else None})


def field_refusal(name: str, sentence: Words) -> ValidationError:
    """A refusal that stands beside one box."""
    return ValidationError({name: [sentence]})


class BeginSchema(Schema):
    """Start a hand-in. The key was made with the page, so that sending it twice starts one."""

    sheet_id = Identifier(required=True)
    sent_key = Text(80, least=16, required=True)


class VersionSchema(Schema):
    """What somebody looked at before pressing the button."""

    version = Whole(0, 2**31 - 1, required=True)


class PhotographSchema(Schema):
    """What a photograph shows."""

    kind = Choice(PhotographKind, required=True)
    caption = Text(200, load_default="")


class PhotographsSchema(PhotographSchema):
    """Several photographs of one kind. Each file is read by itself, so that one bad file spoils no other."""

    photographs = Several(Upload(lambda upload: upload), least=1, most=MOST_PHOTOGRAPHS)
