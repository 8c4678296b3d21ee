"""Values from the store as a form shows them: texts under the names that the page uses."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date, datetime, time
from decimal import Decimal
from typing import Any

from marshmallow import Schema, fields, missing
from werkzeug.datastructures import MultiDict

from hub.web.fields import SomeOrNone, YesNo


def prefilled(schema: Schema, given: Any, prefix: str = "") -> MultiDict[str, str]:
    """What each box holds before anybody typed: from ``given`` (a mapping or an object), else the default."""
    return MultiDict(pairs(schema, given, prefix))


def pairs(schema: Schema, given: Any, prefix: str) -> Iterator[tuple[str, str]]:
    for attribute, inner in schema.load_fields.items():
        name = f"{prefix}{inner.data_key or attribute}"
        yield from boxes(inner, held(given, attribute, inner), name)


def boxes(inner: fields.Field[Any], value: Any, name: str) -> Iterator[tuple[str, str]]:
    """The boxes of one field: one for most, one for each entry of a list, a row of them for each row."""
    if value is None:
        return
    if isinstance(inner, fields.Nested):
        rows = enumerate(value) if inner.many else [(None, value)]
        for at, row in rows:
            yield from pairs(inner.schema, row, f"{name}-" if at is None else f"{name}-{at}-")
    elif isinstance(inner, SomeOrNone) and not value:
        yield name, SomeOrNone.NONE
    elif isinstance(inner, fields.List):
        yield from ((name, written(each)) for each in value)
    elif isinstance(inner, YesNo):
        yield name, "yes" if value else "no"
    else:
        yield name, written(value)


def held(given: Any, attribute: str, inner: fields.Field[Any]) -> Any:
    found = given.get(attribute) if isinstance(given, Mapping) else getattr(given, attribute, None)
    if found is None and inner.load_default is not missing:
        return None if callable(inner.load_default) else inner.load_default
    return found


def written(value: Any) -> str:
    """One value as its input element wants it: ISO days, plain decimals, ‘yes’ for a tick."""
    match value:
        case bool():
            return "yes" if value else ""
        case datetime():
            return value.isoformat()
        case date():
            return value.isoformat()
        case time():
            return value.isoformat("minutes")
        case Decimal():
            return f"{value:f}"
        case float():
            return f"{Decimal(repr(value)).normalize():f}"  # never with a power of ten, which no field reads
        case _:
            return str(value)
