"""Every calculator answers its example, and refuses in words what it cannot answer."""

from __future__ import annotations

import json
import math
import re
from contextlib import suppress
from datetime import date
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from marshmallow import ValidationError, fields

from hub.calculators.answers import as_json
from hub.calculators.calculator import Calculator
from hub.calculators.catalogue import CALCULATORS, TOPICS
from hub.web.json_schema import json_schema_of
from hub.words import Refused

FEWEST = 25  # of calculators, as was agreed for the section
NAMES = sorted(CALCULATORS)
EDGES = [
    0,
    1,
    -1,
    0.5,
    1e-9,
    1e9,
    1e300,
    2**53,
    math.nan,
    math.inf,
    -math.inf,
    "",
    "12",
    "1,5",
    None,
    True,
    [],
    {},
]


def answer_of(calculator: Calculator, inputs: Any) -> dict[str, Any]:
    return as_json(calculator.answer(calculator.read(inputs)))


def figures_in(answer: dict[str, Any]) -> list[dict[str, Any]]:
    return list(answer.get("values", {}).values()) or [answer]


def test_there_are_enough_and_each_stands_once() -> None:
    listed = [each.name for topic in TOPICS for each in topic.calculators]
    assert len(listed) == len(set(listed)) == len(CALCULATORS) >= FEWEST


@pytest.mark.parametrize("name", NAMES)
def test_its_name_is_in_kebab_case_and_its_question_a_question(name: str) -> None:
    assert re.fullmatch(r"[a-z]+(-[a-z]+)*", name)
    assert str(CALCULATORS[name].asks).endswith("?")


@pytest.mark.parametrize("name", NAMES)
def test_its_example_is_answered_in_full(name: str) -> None:
    answer = answer_of(CALCULATORS[name], CALCULATORS[name].example)
    assert answer["source"]
    assert json.loads(json.dumps(answer, allow_nan=False)) == answer
    for figure in figures_in(answer):
        assert figure["unit"]
        if "interval" in figure:
            ends = figure["interval"]
            assert ends["low"] <= figure["value"] <= ends["high"]
            assert 0 < ends["level"] <= 1


@pytest.mark.parametrize("name", NAMES)
def test_its_inputs_are_described_for_programs(name: str) -> None:
    schema = json_schema_of(CALCULATORS[name].schema(), name)
    assert set(CALCULATORS[name].example) <= set(schema["properties"])
    assert all(each["description"] for each in schema["properties"].values())


@pytest.mark.parametrize("name", NAMES)
@settings(max_examples=40, deadline=None)
@given(data=st.data())
def test_odd_figures_get_a_finite_answer_or_a_sentence(name: str, data: st.DataObject) -> None:
    calculator = CALCULATORS[name]
    inputs = dict(calculator.example)
    for key, field in calculator.schema().load_fields.items():
        if data.draw(st.booleans()):
            inputs[key] = data.draw(odd(field))
    with suppress(ValidationError, Refused):
        json.dumps(answer_of(calculator, inputs), allow_nan=False)


def odd(field: fields.Field[Any]) -> st.SearchStrategy[Any]:
    """Whatever a person or a program might send: mostly nearly right."""
    near = st.one_of(st.sampled_from(EDGES), st.integers(-5, 500), st.floats(0, 1), st.floats(0, 5000))
    if isinstance(field, fields.List):
        return st.one_of(st.lists(near, max_size=6), near)
    return near


def test_a_day_is_answered_as_a_day() -> None:
    answer = answer_of(CALCULATORS["next-viability-test"], {"last_test": "2031-03-15", "years_to_85": 30})
    assert date.fromisoformat(answer["values"]["day"]["value"]) == date(2041, 3, 14)
    assert answer["values"]["years"]["value"] == 10


def test_what_was_only_remembered_says_so() -> None:
    assert (
        "(from memory)"
        in answer_of(CALCULATORS["mothers-in-a-draw"], CALCULATORS["mothers-in-a-draw"].example)["source"]
    )
