"""Numbers with their unit and their bounds. Nothing is guessed: what could be read two ways is sent back."""

from __future__ import annotations

import math
import re
from decimal import Decimal
from typing import Any

from marshmallow import fields

from hub.web.fields.plain import Plain, Within
from hub.words import Words, say

Unit = str | Words
Bound = int | float

LARGEST = 2_147_483_647  # What an integer column of PostgreSQL holds.
GAPS = re.compile(r"(?<=\d)[ \u00a0\u2009\u202f](?=\d{3}(?!\d))")  # spaces between groups of three digits
WHOLE = re.compile(r"[+-]?\d{1,18}", re.ASCII)
DECIMAL = re.compile(r"[+-]?(\d{1,18}([.,]\d{0,12})?|[.,]\d{1,12})", re.ASCII)
TWO_WAYS = re.compile(r"[+-]?\d{1,3},\d{3}", re.ASCII)


class Whole(Plain, fields.Integer):
    """A whole number from ``low`` to ``high``, both allowed."""

    default_error_messages = {
        "invalid": say("Please give a whole number in digits, such as 40."),
        "too_large": say("This number is too large."),
    }

    def __init__(self, low: int = 0, high: int = LARGEST, unit: Unit = "", **options: Any) -> None:
        super().__init__(strict=True, **with_unit(options, unit))
        self.validators.append(Within(low, high, between(low, high, unit)))

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> int:
        if isinstance(value, str):
            value = tidy(value)
            if not WHOLE.fullmatch(value):
                raise self.make_error("invalid")
        elif not is_number(value) or value != int(value):
            raise self.make_error("invalid")
        return int(value)


class Measure(Plain, fields.Decimal):
    """A decimal number of one unit, from ``low`` to ``high``, both allowed. Loads as Decimal."""

    default_error_messages = {
        "invalid": say("Please give a number, such as 2.5."),
        "special": say("Please give a number, such as 2.5."),
        "too_large": say("This number is too large."),
        "two_ways": say("This could be read in two ways. Please write thousands without a comma."),
    }

    def __init__(self, unit: Unit, low: Bound, high: Bound, **options: Any) -> None:
        super().__init__(**with_unit(options, unit))
        self.validators.append(Within(low, high, between(low, high, unit)))

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> Decimal:
        if isinstance(value, str):
            text = tidy(value)
            if TWO_WAYS.fullmatch(text):
                raise self.make_error("two_ways")
            return self.read(text)
        if not is_number(value):
            raise self.make_error("invalid")
        return Decimal(str(value))

    def _serialize(self, value: Any, attr: str | None, obj: Any, **kwargs: Any) -> Any:
        """A JSON number: 15 digits come back as they went out, and no measurement has more."""
        return None if value is None else float(value)

    def read(self, text: str) -> Decimal:
        if not DECIMAL.fullmatch(text):
            raise self.make_error("invalid")
        return Decimal(text.replace(",", "."))


class Degrees(Plain, fields.Float):
    """An angle in decimal degrees, WGS 84. A comma may stand for the point. Loads as float."""

    limit: int
    sentence: Words
    default_error_messages = {
        "invalid": say("Please give decimal degrees, such as 51.47831."),
        "special": say("Please give decimal degrees, such as 51.47831."),
        "too_large": say("This number is too large."),
    }

    def __init__(self, **options: Any) -> None:
        super().__init__(**with_unit(options, "°"))
        self.validators.append(Within(-self.limit, self.limit, self.sentence))

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> float:
        text = tidy(value) if isinstance(value, str) else ""
        if DECIMAL.fullmatch(text):
            return float(text.replace(",", "."))
        if not is_number(value):
            raise self.make_error("invalid")
        return float(value)


class Latitude(Degrees):
    """Degrees north of the equator; south is negative."""

    limit = 90
    sentence = say("A latitude lies from -90 to 90 degrees; south is negative.")


class Longitude(Degrees):
    """Degrees east of Greenwich; west is negative."""

    limit = 180
    sentence = say("A longitude lies from -180 to 180 degrees; west is negative.")


def tidy(text: str) -> str:
    """Without outer space, gaps between thousands, or the typographic minus."""
    return GAPS.sub("", text.strip()).replace("\u2212", "-")


def is_number(value: Any) -> bool:
    """A finite JSON number. True and False are not numbers."""
    return isinstance(value, int | float | Decimal) and not isinstance(value, bool) and math.isfinite(value)


def between(low: Bound, high: Bound, unit: Unit) -> Words:
    if unit == "":
        return say("This must lie from {low} to {high}.", low=low, high=high)
    return say("This must lie from {low} to {high} {unit}.", low=low, high=high, unit=unit)


def with_unit(options: dict[str, Any], unit: Unit) -> dict[str, Any]:
    """Tell the API's document the unit, as an extension of ours."""
    if unit != "":
        options["metadata"] = {"x-unit": str(unit), **options.get("metadata", {})}
    return options
