"""Form and JSON fields that refuse in plain words: marshmallow's own, with our sentences and units."""

from hub.web.fields.choices import Choice, Identifier, Upload, Yes, YesNo
from hub.web.fields.numbers import Latitude, Longitude, Measure, Whole
from hub.web.fields.plain import Schema, refusal
from hub.web.fields.rows import Rows, Several, SomeOrNone
from hub.web.fields.texts import Email, LongText, Password, Text
from hub.web.fields.times import Clock, Day

__all__ = [
    "Choice", "Clock", "Day", "Email", "Identifier", "Latitude", "LongText", "Longitude", "Measure",
    "Password", "Rows", "Schema", "Several", "SomeOrNone", "Text", "Upload", "Whole", "Yes", "YesNo",
    "refusal",
]  # fmt: skip
