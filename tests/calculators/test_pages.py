"""The calculators on screen: found by their words, answered at once, and never lost for words."""

from __future__ import annotations

import pytest

from hub.calculators.catalogue import CALCULATORS
from tests.vetting.scene import set_scene


@pytest.fixture
def population_id(cast):
    return set_scene(cast).population_id


def address(name: str, **typed: object) -> str:
    return f"/calculators/{name}?" + "&".join(f"{key}={value}" for key, value in typed.items())


def test_every_calculator_is_listed_with_its_question(browse):
    page = browse("alice").get("/calculators")
    assert all(str(each.asks) in page.main for each in CALCULATORS.values())


def test_questions_are_found_by_their_words(browse):
    page = browse("olga").get("/calculators?search=MOTHERS must we")
    assert "1 calculator" in page.main
    assert "No calculator asks that" in browse("olga").get("/calculators?search=xyzzy").main


def test_each_opens_with_an_example_and_its_answer(browse):
    window = browse("alice")
    for name in CALCULATORS:
        page = window.get(f"/calculators/{name}")
        assert "An example" in page.main, name
        assert "answer-figure" in page.html, name


def test_what_is_asked_stands_in_the_address(browse):
    """ln(0.01) / ln(0.95²) is 44.9: rounded up 45."""
    page = browse("alice").get(address("mothers-needed", frequency=0.05, wanted=0.99))
    assert "45 mothers" in page.main
    assert "An example" not in page.main


def test_a_refusal_stands_at_its_box_and_keeps_what_was_typed(browse):
    page = browse("alice").get(address("cut-test", good="nine", tested=10), 422)
    assert "whole number" in page.main
    assert 'value="nine"' in page.html
    assert "answer-figure" not in page.html


def test_what_contradicts_itself_is_refused_in_a_sentence(browse):
    page = browse("alice").get(address("cut-test", good=12, tested=10), 422)
    assert "The good seeds must be from 0 to 10 seeds" in page.main


def test_what_no_calculator_asks_is_refused(browse):
    assert "does not ask for" in browse("alice").get(address("cut-test", colour="red"), 422).main


def test_there_is_no_calculator_of_another_name(browse):
    browse("alice").get("/calculators/nonsense", 404)


def test_a_figure_is_carried_to_the_count_of_a_population(browse, population_id):
    window = browse("alice")
    opened = window.get(f"/calculators/population-from-plots?use_for={population_id}")
    assert f"/populations/{population_id}/census?plants=1320" in opened.html
    census = window.get(f"/populations/{population_id}/census?plants=1320")
    assert 'value="1320"' in census.html


@pytest.mark.parametrize("way_back", ["", "nonsense", "00000000"])
def test_without_a_population_there_is_nothing_to_carry_to(browse, way_back):
    page = browse("alice").get(f"/calculators/population-from-plots?use_for={way_back}")
    assert "Enter it" not in page.main


def test_it_costs_one_query_to_know_who_asks(browse):
    window = browse("alice")
    window.get("/calculators/mothers-needed")
    assert len(window.queries) == 1


def test_a_visitor_is_asked_to_sign_in(browse):
    browse().get("/calculators", 302)
