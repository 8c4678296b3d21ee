"""A case as JSON: read with a sentence beside every wrong member, and described as JSON Schema.

The schemas are made from the dataclasses of the case, so that a fact is described once.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import MISSING, Field, fields, is_dataclass
from datetime import date
from enum import StrEnum
from functools import cache
from types import NoneType, UnionType
from typing import Any, Union, get_args, get_origin, get_type_hints

from marshmallow import Schema, ValidationError, post_load, validate, validates_schema
from marshmallow import fields as members

from hub.protocols.case import Case, PermissionFacts, PermitFacts, PopulationFacts
from hub.web.fields import Day, Identifier, LongText, Measure
from hub.web.fields import Schema as FormSchema
from hub.web.json_schema import json_schema_of
from hub.words import say

_PLAIN: dict[type, type[members.Field]] = {
    str: members.String,
    bool: members.Boolean,
    int: members.Integer,
    float: members.Float,
    date: members.Date,
}


# marshmallow types its messages as plain text; ours are Words, translated where they are shown.
MORE_THAN_ALL: Any = say("More plants bear fruit than there are plants.")
BACKWARDS: Any = say("The last day comes before the first.")


class _FactsSchema(Schema):
    """The shared part: JSON in, a frozen dataclass out."""

    kind: type

    @validates_schema
    def check(self, data: Mapping[str, Any], **_: Any) -> None:
        """Facts that contradict each other."""
        if self.kind is PopulationFacts and _more(data.get("fruiting_plants"), data.get("plants")):
            raise ValidationError(MORE_THAN_ALL, "fruiting_plants")
        if self.kind in (PermissionFacts, PermitFacts) and _more(data.get("since"), data.get("until")):
            raise ValidationError(BACKWARDS, "until")

    @post_load
    def make(self, data: Mapping[str, Any], **_: Any) -> Any:
        """The facts themselves."""
        return self.kind(**{name: tuple(v) if isinstance(v, list) else v for name, v in data.items()})


def _more(one: Any, other: Any) -> bool:
    return one is not None and other is not None and one > other


@cache
def schema_for(kind: type) -> type[Schema]:
    """The marshmallow schema of one dataclass of facts."""
    hints = get_type_hints(kind)
    described = {each.name: _member(hints[each.name], each) for each in fields(kind)}
    made = _FactsSchema.from_dict(described, name=f"{kind.__name__}Schema")
    made.kind = kind  # type: ignore[attr-defined]
    return made


def _member(hint: Any, described: Field[Any]) -> members.Field:
    """One member, with its meaning, bounds and default."""
    meta = described.metadata
    least, most = meta.get("at_least"), meta.get("at_most")
    options: dict[str, Any] = {"metadata": {"description": meta["says"]} if meta else {}}
    if (least, most) != (None, None):
        options["validate"] = validate.Range(min=least, max=most)
    if described.name == "name" and "Scientific" in meta.get("says", ""):
        return members.String(required=True, validate=validate.Length(min=1, max=200), **options)
    if described.default is MISSING and described.default_factory is MISSING:
        return _of(hint, required=True, **options)
    return _of(hint, **options)


def _of(hint: Any, **options: Any) -> members.Field:
    origin = get_origin(hint)
    if origin in (Union, UnionType):
        return _of(next(each for each in get_args(hint) if each is not NoneType), allow_none=True, **options)
    if origin is tuple:
        return members.List(_of(get_args(hint)[0]), **options)
    if is_dataclass(hint):
        return members.Nested(schema_for(hint), **options)  # type: ignore[arg-type]
    if issubclass(hint, StrEnum):
        return members.Enum(hint, by_value=True, **options)
    if hint in (int, float, bool):
        return _number_or_answer(hint, **options)
    return _PLAIN[hint](**options)


def _number_or_answer(hint: type, **options: Any) -> members.Field:
    """Only a true JSON number or ``true``/``false``: "12", NaN and 1-for-yes are refused."""
    if hint is bool:
        return members.Boolean(truthy={True}, falsy={False}, **options)
    if hint is int:
        return members.Integer(strict=True, **options)
    return members.Float(allow_nan=False, **options)


CaseSchema = schema_for(Case)


def read_case(data: Any) -> Case:
    """A case from JSON. Raises marshmallow's ``ValidationError`` with messages by member."""
    loaded: Case = CaseSchema().load(data)
    return loaded


class ReasonSchema(FormSchema):
    """Why something is taken back."""

    reason = LongText(1000, required=True)


class SignOffSchema(FormSchema):
    """A consent: the largest share, in per cent, and why."""

    share = Measure("%", 0, 100, required=True)
    reason = LongText(1000, required=True)


class OverrideSchema(FormSchema):
    """A change of one figure of one rule; a choice or a stop has no number and is set aside whole."""

    value = Measure("", 0, 1_000_000)
    reason = LongText(1000, required=True)
    evidence = LongText(1000)
    ends_on = Day(required=True)
    taxon_id = Identifier()
    population_id = Identifier()


def case_json_schema() -> dict[str, Any]:
    """JSON Schema (draft 2020-12) of a case."""
    return json_schema_of(CaseSchema(), "Case")
