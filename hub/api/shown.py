"""What answers are made of: only the fields that are listed, every one of them always there."""

from __future__ import annotations

from enum import StrEnum
from typing import Any

from marshmallow import RAISE, Schema, fields

from hub.science.localities import Withheld
from hub.sites.localities import Public
from hub.web.language import said


class Shown(Schema):
    """One resource as it leaves the hub. Whatever is not listed here stays inside."""

    class Meta:
        unknown = RAISE  # in the document: no further members

    def on_bind_field(self, field_name: str, field_obj: fields.Field[Any]) -> None:
        field_obj.required = True


class Said(fields.String):
    """A sentence, in the reader's language."""

    def _serialize(self, value: Any, attr: str | None, obj: Any, **kwargs: Any) -> str | None:
        return None if value is None else said(value)


class Kept(fields.String):
    """One of an enum's values, where the store keeps it as text."""

    def __init__(self, kind: type[StrEnum], **options: Any) -> None:
        super().__init__(metadata={"enum": [each.value for each in kind]}, **options)


class Moment(fields.DateTime):
    """An instant, in UTC."""


class Count(fields.Integer):
    """A whole number, zero or more, with its unit in the document."""

    def __init__(self, unit: str, **options: Any) -> None:
        super().__init__(metadata={"x-unit": unit, "minimum": 0}, **options)


class Amount(fields.Float):
    """A number with its unit in the document."""

    def __init__(self, unit: str, **options: Any) -> None:
        super().__init__(metadata={"x-unit": unit}, **options)


class PlaceShown(Shown):
    """A place as anybody may have it: generalised, or withheld (category 1)."""

    latitude = Amount("°", allow_none=True)
    longitude = Amount("°", allow_none=True)
    uncertainty_m = Amount("m", allow_none=True)
    withheld = fields.Boolean()
    words = Said()


def place_shown(place: Public) -> dict[str, Any]:
    """A generalised place as ``PlaceShown`` writes it."""
    hidden = isinstance(place, Withheld)
    names = ("latitude", "longitude", "uncertainty_m")
    where = {name: None if hidden else getattr(place, name) for name in names}
    return where | {"withheld": hidden, "words": place.words}
