"""Fields refuse in plain words, guess nothing, and can be described by the API's document."""

from __future__ import annotations

import json
from decimal import Decimal
from enum import StrEnum
from uuid import UUID

import pytest
from apispec import APISpec
from apispec.ext.marshmallow import MarshmallowPlugin
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from marshmallow import ValidationError

from hub.web.fields import (
    Choice,
    Clock,
    Day,
    Email,
    Identifier,
    Latitude,
    Longitude,
    LongText,
    Measure,
    Password,
    Rows,
    Schema,
    Several,
    Text,
    Whole,
    Yes,
)
from hub.words import Words


class Kind(StrEnum):
    SEED = "seed"


class Row(Schema):
    plant = Text(5, required=True)


class Everything(Schema):
    text = Text(10)
    notes = LongText(50)
    seeds = Whole(0, 9000, "seeds")
    mass = Measure("g", 0, 5000)
    day = Day()
    clock = Clock()
    kind = Choice(Kind)
    yes = Yes()
    thing = Identifier()
    latitude = Latitude()
    longitude = Longitude()
    email = Email()
    password = Password()
    tags = Several(Text(5), most=3)
    rows = Rows(Row, most=2)


def load(**values):
    return Everything().load(values)


def refused(**values):
    with pytest.raises(ValidationError) as error:
        load(**values)
    return error.value.messages


@pytest.mark.parametrize(
    ("name", "typed", "value"),
    [
        ("text", "  Ru\u0301e ", "Rúe"),
        ("text", " ", None),
        ("notes", "a\r\nb", "a\nb"),
        ("seeds", "1 200", 1200),
        ("seeds", "1\u202f200", 1200),
        ("seeds", 40, 40),
        ("seeds", 40.0, 40),
        ("mass", "2,5", Decimal("2.5")),
        ("mass", " .5", Decimal("0.5")),
        ("mass", 0.1, Decimal("0.1")),
        ("latitude", "-43,53", -43.53),
        ("latitude", "\u221243.53", -43.53),
        ("longitude", 180, 180.0),
        ("yes", "on", True),
        ("thing", str(UUID(int=5)), UUID(int=5)),
        ("email", " ada@example.org ", "ada@example.org"),
        ("password", "  ", "  "),
    ],
)
def test_what_people_type_is_understood(name, typed, value):
    assert load(**{name: typed})[name] == value


@pytest.mark.parametrize(
    ("name", "typed"),
    [
        ("text", "a\0b"),
        ("text", "\ud800"),
        ("text", "a\nb"),
        ("text", "x" * 11),
        ("text", 5),
        ("seeds", "1.7"),
        ("seeds", 1.7),
        ("seeds", True),
        ("seeds", "1,200"),
        ("seeds", "-1"),
        ("seeds", "1_000"),
        ("seeds", "٣"),
        ("seeds", "9" * 5000),
        ("seeds", float("inf")),
        ("mass", "1,200"),
        ("mass", "NaN"),
        ("mass", "1e3"),
        ("mass", float("nan")),
        ("mass", "5000.1"),
        ("latitude", "90.1"),
        ("longitude", "-181"),
        ("latitude", "inf"),
        ("day", "2026-02-30"),
        ("day", "12/06/2026"),
        ("day", "20260612"),
        ("day", "0226-06-12"),
        ("clock", "24:00"),
        ("clock", "2 pm"),
        ("kind", "fruit"),
        ("kind", ["seed"]),
        ("yes", "perhaps"),
        ("thing", "5"),
        ("email", "ada"),
        ("email", "a" * 300 + "@example.org"),
        ("password", "x" * 257),
        ("tags", ["a"] * 4),
        ("tags", "a"),
        ("rows", [{"plant": "a"}] * 3),
    ],
)
def test_what_cannot_be_meant_is_refused_in_words(name, typed):
    sentences = refused(**{name: typed})[name]
    assert sentences
    assert all(isinstance(each, Words) for each in sentences)


def test_a_sentence_names_the_bounds_and_the_unit():
    (sentence,) = refused(mass="5000.1")["mass"]
    assert str(sentence) == "This must lie from 0 to 5000 g."


def test_a_name_that_is_not_asked_for_is_refused():
    assert isinstance(refused(role="curator")["role"][0], Words)


def test_a_tick_that_must_be_is_asked_for():
    schema = Schema.from_dict({"agreed": Yes(must=True)})()
    for answer in ({}, {"agreed": "no"}):
        with pytest.raises(ValidationError):
            schema.load(answer)
    assert schema.load({"agreed": "yes"}) == {"agreed": True}


anything = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=3), inner, max_size=3),
    max_leaves=6,
)


@given(st.sampled_from(sorted(Everything().fields)), anything)
def test_any_json_is_taken_or_refused_in_words(name, value):
    try:
        Everything().load({name: value})
    except ValidationError as error:
        leaves = [error.messages]
        while leaves:
            leaf = leaves.pop()
            leaves += leaf.values() if isinstance(leaf, dict) else []
            assert isinstance(leaf, dict) or all(isinstance(each, Words) for each in leaf)


def test_the_api_can_describe_every_field_as_json_schema():
    spec = APISpec("probe", "1", "3.1.0", plugins=[MarshmallowPlugin()])
    spec.components.schema("Everything", schema=Everything)
    described = json.loads(json.dumps(spec.to_dict()))["components"]["schemas"]["Everything"]
    Draft202012Validator.check_schema(described)
    assert described["properties"]["mass"]["x-unit"] == "g"
    assert described["properties"]["mass"]["maximum"] == 5000
    assert described["properties"]["text"]["maxLength"] == 10


def test_a_measure_comes_back_through_json_as_it_went_out():
    sent = json.dumps(Everything(only=["mass"]).dump({"mass": Decimal("12.345")}))
    assert load(**json.loads(sent))["mass"] == Decimal("12.345")
