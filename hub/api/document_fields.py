"""How our own fields are described, and what schemas are called."""

from __future__ import annotations

from typing import Any

from apispec.ext.marshmallow.common import resolve_schema_cls
from marshmallow import fields

from hub.sites.schemas import Outline
from hub.web.fields import Choice, Text

OWN = "hub.api."
ENDINGS = ("Schema", "Shown")


def schema_name(schema: Any) -> str:
    """Stable and unique: ``Adoption`` for what the API shows, ``SitesAsk`` for what a feature takes."""
    kind: Any = resolve_schema_cls(schema)
    name = kind.__name__
    for ending in ENDINGS:
        name = name.removesuffix(ending)
    if kind.__module__.startswith(OWN):
        return str(name)
    package, _, rest = kind.__module__.partition(".")
    feature = rest.partition(".")[0].capitalize() if package == "hub" else ""  # made from facts: no module
    return f"{feature}{name}"


def a_choice(self: Any, field: fields.Field[Any], ret: dict[str, Any]) -> dict[str, Any]:
    """A choice is text."""
    if not isinstance(field, Choice):
        return {}
    return {"type": ["string", "null"] if field.allow_none else "string"}


def an_outline(self: Any, field: fields.Field[Any], ret: dict[str, Any]) -> dict[str, Any]:
    """A polygon is read as an object, or as the text of one."""
    if not isinstance(field, Outline):
        return {}
    ret.pop("maxLength", None)
    return {"type": ["object", "string", "null"], "description": "GeoJSON geometry (RFC 7946), WGS 84."}


def a_short_text(self: Any, field: fields.Field[Any], ret: dict[str, Any]) -> dict[str, Any]:
    """Text that may be empty has no least length."""
    if isinstance(field, Text) and ret.get("minLength") == 0:
        ret.pop("minLength")
    return {}


FIELD_TRAITS = (a_choice, an_outline, a_short_text)
