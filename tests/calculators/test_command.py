"""``hub compute``, as people and scripts type it."""

from __future__ import annotations

import json

import pytest

from hub.calculators.catalogue import CALCULATORS
from hub.calculators.command import compute_command


def test_the_list_has_a_line_for_each(capsys: pytest.CaptureFixture[str]) -> None:
    assert compute_command(["--list"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert [line.split()[0] for line in lines] == list(CALCULATORS)


def test_an_answer_is_one_json_object(capsys: pytest.CaptureFixture[str]) -> None:
    """0.95 of 30 mothers: 59 gametes carry an allele of 0.05 (Brown & Marshall 1995, as in the protocol)."""
    assert compute_command(["mothers-needed", "--json", '{"wanted": 0.95}']) == 0
    answer = json.loads(capsys.readouterr().out)
    assert (answer["value"], answer["unit"]) == (30, "mothers")


def test_the_schema_of_its_inputs_is_printed(capsys: pytest.CaptureFixture[str]) -> None:
    assert compute_command(["cut-test", "--schema"]) == 0
    schema = json.loads(capsys.readouterr().out)
    assert schema["properties"]["good"]["type"] == "integer"
    assert schema["required"] == ["good", "tested"]


@pytest.mark.parametrize(
    ("arguments", "code", "words"),
    [
        (["nonsense"], 2, "no calculator “nonsense”"),
        ([], 2, "hub compute --list"),
        (["cut-test", "--json", "{"], 1, "not JSON"),
        (["cut-test", "--json", "[" * 100_000], 1, "not JSON"),
        (["cut-test", "--json", '{"good": 1}'], 1, "inputs.tested: Please fill this in."),
        (["cut-test", "--json", '{"good": 3, "tested": 2}'], 1, "from 0 to 2 seeds"),
        (["cut-test", "--json", '{"good": NaN, "tested": 2}'], 1, "inputs.good"),
    ],
)
def test_what_cannot_be_answered_is_said(
    arguments: list[str], code: int, words: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert compute_command(arguments) == code
    said = capsys.readouterr()
    assert words in said.err
    assert not said.out
