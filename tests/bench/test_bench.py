"""The benchmark runs and reports every figure. How fast anything is, no test asks: machines differ."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from hub.bench import main
from hub.bench.figure import Figure, ratio, side_by_side
from hub.bench.science import SHARE_OF_INITIAL, bare_years, invented_lots
from hub.science.longevity.many import years_to_share_of_initial

FIGURES = {
    "Rules alone": 5.0,
    "Sheet as PDF, first time": 1.2,
    "Sheet as PDF, unchanged again": 2.0,
    "Regional progress": 1.5,
    "Vetting queue": 1.5,
    "Life of 100,000 lots": 1.5,
    "Second start": 2.0,
}


def test_a_trial_reports_every_figure_with_its_bar(
    demo_folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    code = main(["--trial", "--json", "--demo", str(demo_folder)])
    figures = json.loads(capsys.readouterr().out)
    assert {each["name"]: each["bar"] for each in figures} == FIGURES
    assert all(each["value"] > 0 for each in figures)
    assert all(each["holds"] is (each["value"] <= each["bar"]) for each in figures)
    assert code == int(not all(each["holds"] for each in figures))


def test_a_figure_says_whether_it_holds() -> None:
    assert str(Figure("Speed", 1.2, "×", 1.2, "this against that")).startswith("holds  Speed: 1.20 ×")
    assert str(Figure("Speed", 1.3, "×", 1.2, "this against that")).startswith("FAILS  Speed: 1.30 ×")


def test_acts_take_turns_after_one_round_to_warm_up() -> None:
    done: list[str] = []
    acts: dict[str, Callable[[], object]] = {name: lambda name=name: done.append(name) for name in ("a", "b")}
    found = ratio("Turns", "a against b", bar=2, rounds=2, **acts)
    assert "".join(done) == "ababab"
    assert set(found.medians) == {"a", "b"}


def test_a_figure_is_the_median_of_its_rounds_with_the_middle_half() -> None:
    figure = Figure.over("Speed", [1.0, 5.0, 2.0, 4.0, 3.0], "×", 3.0, "this against that")
    assert (figure.value, figure.spread, figure.holds) == (3.0, (2.0, 4.0), True)
    assert "3.00 × (2.00 to 4.00 in half of the rounds)" in str(figure)
    assert Figure.over("Speed", [1.0], "×", 3.0, "once").spread is None


def test_a_clock_of_one_s_own_may_measure() -> None:
    hands = iter([0.0, 0.002, 1.0, 1.004])
    times = side_by_side(2, {"act": lambda: None}, lambda: next(hands))
    assert times == {"act": pytest.approx([2.0, 4.0])}


def test_what_science_is_measured_against_answers_the_same() -> None:
    lots = invented_lots()
    assert bare_years(lots) == pytest.approx(years_to_share_of_initial(lots, SHARE_OF_INITIAL).years)
