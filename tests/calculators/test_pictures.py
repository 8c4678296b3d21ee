"""Axes of round numbers, and curves that stay between them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.calculators.pictures import Curve, axis, traced, traced_whole
from hub.words import say

REAL = st.floats(-1e6, 1e6).map(lambda value: round(value, 3))


@given(st.lists(REAL, min_size=1, max_size=20))
def test_an_axis_holds_its_values_with_few_round_ticks(values: list[float]) -> None:
    found = axis(values)
    assert found.low <= min(values) + 1e-9
    assert found.high >= max(values) - 1e-9
    assert 2 <= len(found.ticks) <= 12
    assert found.part(found.low) == 0
    assert found.part(found.high) == 1


@pytest.mark.parametrize(
    ("values", "ticks"),
    [([0, 1], (0, 0.2, 0.4, 0.6, 0.8, 1)), ([0, 60], (0, 10, 20, 30, 40, 50, 60)), ([5, 5], (5, 6))],
)
def test_ticks_are_the_numbers_that_a_person_would_write(
    values: list[float], ticks: tuple[float, ...]
) -> None:
    assert axis(values).ticks == ticks


def test_a_curve_shows_where_it_was_asked() -> None:
    curve = Curve(say("Title"), say("Across"), say("Up"), traced(lambda x: x * x, 0, 2), (5.0, 25.0))
    assert curve.along.high >= 5
    assert curve.upward.high >= 25


def test_many_whole_steps_are_thinned() -> None:
    assert len(traced_whole(float, 0, 10_000)) < 70
    assert traced_whole(float, 0, 10_000)[-1] == (10_000, 10_000)
