"""What the pages of sites, papers, populations and salvage ask for."""

from __future__ import annotations

import json
from datetime import date
from typing import Any

from hub.science.outlines import read_outline
from hub.sites.rules import CensusMethod, Decision, Origin, Risk, Threat, Trend
from hub.web.fields import (
    Choice,
    Day,
    Email,
    Identifier,
    Latitude,
    Longitude,
    LongText,
    Measure,
    Schema,
    SomeOrNone,
    Text,
    Upload,
    Whole,
    Yes,
    YesNo,
    refusal,
)
from hub.web.uploads import document
from hub.words import Refused, say

FIRST_YEAR, LAST_YEAR = 1800, 2200
LARGEST_SITE_M = 20_000
LONGEST_OUTLINE = 500_000  # characters


class Outline(LongText):
    """A polygon as GeoJSON: its text, as a drawing program saves it, or already read."""

    def __init__(self, **options: Any) -> None:
        super().__init__(LONGEST_OUTLINE, **options)

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> Any:
        if isinstance(value, str):
            if not value.strip():
                return None
            try:
                value = json.loads(value)
            except (ValueError, RecursionError):
                raise refusal(say("This is not GeoJSON. Paste the whole text of the file.")) from None
        try:
            return read_outline(value)
        except Refused as wrong:
            raise refusal(wrong.words) from None

    def _serialize(self, value: Any, attr: str | None, obj: Any, **kwargs: Any) -> Any:
        return value

    def _validate(self, value: Any) -> None:
        """What was read is sound; the length of its text no longer matters."""


class Years(SomeOrNone):
    """Years as a list, or as somebody writes them: ``2019, 2023``."""

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> Any:
        if isinstance(value, list):
            value = [
                year for each in value for year in (written_years(each) if isinstance(each, str) else [each])
            ]
        return super()._deserialize(value, attr, data, **kwargs)


def written_years(text: str) -> list[str]:
    return text.replace(",", " ").replace(";", " ").split()


class SiteSchema(Schema):
    name = Text(120, required=True)
    district_id = Identifier(required=True)
    latitude = Latitude(required=True)
    longitude = Longitude(required=True)
    radius_m = Measure("m", 1, LARGEST_SITE_M, required=True)
    outline = Outline()
    locality = LongText(2000, load_default="")
    habitat = Text(120, load_default="")
    owner_label = Text(120, required=True)
    owner_email = Email(load_default="")
    risks = SomeOrNone(Choice(Risk))
    risk_note = LongText(2000, load_default="")
    protected_area = YesNo()
    own_consent_needed = YesNo()


class ChangeSiteSchema(SiteSchema):
    version = Whole(1)


class ShareSchema(Schema):
    group_id = Identifier(required=True)


class LetterSchema(Schema):
    """What a permission letter promises. All of it has a default, so that a plain address gives a letter."""

    starts_on = Day()
    ends_on = Day()
    people = Whole(1, 200, unit=say("people"))
    one_in = Whole(5, 1000)
    wish = LongText(1500, load_default="")


class AskSchema(LetterSchema):
    on = Day(required=True)
    mailed = Yes()


class GrantSchema(Schema):
    answered_on = Day(required=True)
    starts_on = Day(required=True)
    ends_on = Day(required=True)
    conditions = LongText(load_default="")
    signed_file = Upload(document)


class SignedSchema(Schema):
    signed_file = Upload(document, required=True)


class RefuseSchema(Schema):
    answered_on = Day(required=True)
    reason = LongText(1000, load_default="")


class EndSchema(Schema):
    """A paper is ended from a day on."""

    on = Day(required=True)
    reason = LongText(1000, required=True)


class ReasonSchema(Schema):
    reason = LongText(1000, required=True)


class PermitSchema(Schema):
    authority = Text(120, required=True)
    number = Text(60, required=True)
    species = Text(200, load_default="")
    site_id = Identifier()
    starts_on = Day(required=True)
    ends_on = Day(required=True)
    cap_seeds = Whole(0, unit=say("seeds"))
    conditions = LongText(load_default="")


class PopulationSchema(Schema):
    label = Text(120, load_default="")
    latitude = Latitude(required=True)
    longitude = Longitude(required=True)
    uncertainty_m = Measure("m", 0, 5000, required=True)
    origin = Choice(Origin, load_default=Origin.UNKNOWN)
    trend = Choice(Trend, load_default=Trend.UNKNOWN)
    threat = Choice(Threat, load_default=Threat.UNKNOWN)
    threat_note = LongText(2000, load_default="")
    years_collected_before = Years(Whole(FIRST_YEAR, LAST_YEAR))


class NewPopulationSchema(PopulationSchema):
    species = Text(200, required=True)
    code = Text(30, load_default="")


class ChangePopulationSchema(PopulationSchema):
    code = Text(30, required=True)
    version = Whole(1)


class CensusSchema(Schema):
    counted_on = Day(date(1900, 1, 1), required=True)
    method = Choice(CensusMethod, required=True)
    plants = Whole(unit=say("plants"), required=True)
    plants_low = Whole(unit=say("plants"))
    plants_high = Whole(unit=say("plants"))
    fruiting_plants = Whole(unit=say("plants"))
    plants_counted = Whole(1, unit=say("plants"))
    fruits_per_plant = Measure(say("fruits"), 0, 1_000_000)
    fruits_per_plant_se = Measure(say("fruits"), 0, 1_000_000)
    seeds_per_fruit = Measure(say("seeds"), 0, 10_000_000)
    seeds_per_fruit_se = Measure(say("seeds"), 0, 10_000_000)
    empty_share = Measure("", 0, 1)
    immature_share = Measure("", 0, 1)
    poor_year = YesNo()
    disease_seen = YesNo()
    note = LongText(2000, load_default="")


class VerifySchema(Schema):
    how = LongText(500, required=True)


class SalvageSchema(Schema):
    evidence = LongText(required=True)
    evidence_on = Day(required=True)
    evidence_file = Upload(document)
    loss_expected_on = Day()


class AgreeSchema(Schema):
    on = Day(required=True)


class DecideSchema(Schema):
    decision = Choice(Decision, required=True)
    reason = LongText(1000, required=True)
