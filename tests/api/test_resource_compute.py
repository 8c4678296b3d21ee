"""The calculators by program: listed, and each answering its own example."""

from __future__ import annotations

from hub.calculators.catalogue import CALCULATORS
from tests.api.conftest import Programs


def test_the_calculators_are_listed(program: Programs) -> None:
    listed = program("alice").get("/compute")["items"]
    assert [each["name"] for each in listed] == list(CALCULATORS)


def test_each_answers_its_example(program: Programs) -> None:
    asking = program("olga")
    for name, calculator in CALCULATORS.items():
        answer = asking.send("POST", f"/compute/{name}", 200, json=dict(calculator.example)).json
        assert answer["source"], name
        assert "value" in answer or answer["values"], name


def test_it_tells_where_an_input_is_wrong(program: Programs) -> None:
    wrong = {"good": "many", "tested": 10}
    answer = program("alice").send("POST", "/compute/cut-test", 422, json=wrong).get_json(force=True)
    assert [each["pointer"] for each in answer["errors"]] == ["/good"]


def test_figures_that_contradict_each_other_are_refused(program: Programs) -> None:
    answer = program("alice").send("POST", "/compute/cut-test", 422, json={"good": 12, "tested": 10})
    assert "from 0 to 10 seeds" in answer.get_json(force=True)["errors"][0]["detail"]


def test_a_key_is_needed(program: Programs) -> None:
    program().send("GET", "/compute", 401)
    program().send("POST", "/compute/cut-test", 401, json={"good": 1, "tested": 2})


def test_there_is_no_calculator_of_another_name(program: Programs) -> None:
    program("alice").send("POST", "/compute/nonsense", 404, json={})
