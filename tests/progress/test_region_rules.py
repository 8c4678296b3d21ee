"""What is missing, when an adoption is stalled, and how a district is drawn."""

from __future__ import annotations

from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.adoptions.rules import AdoptionState, Stage
from hub.progress.rules import CAN_STALL, STALLED_AFTER, WAITS_FOR, is_stalled, missing, shade
from tests.cast import NOW

NEEDS = st.dictionaries(st.none() | st.sampled_from("abc"), st.integers(1, 5))
HELD = st.dictionaries(st.sampled_from("abc"), st.integers(0, 6))


@pytest.mark.parametrize(
    ("needed", "held", "short"),
    [
        ({}, {}, {}),
        ({None: 2}, {}, {None: 2}),
        ({None: 2}, {"a": 1}, {None: 1}),
        ({"a": 2}, {"b": 5}, {"a": 2}),
        ({"a": 2, None: 1}, {"a": 3}, {}),
        ({"a": 2, None: 2}, {"a": 1, "b": 1}, {"a": 1, None: 1}),
    ],
)
def test_what_is_missing(needed: dict, held: dict, short: dict) -> None:
    assert missing(needed, held) == short


@given(NEEDS, HELD)
def test_missing_is_never_more_than_needed_nor_less_than_the_difference(needed: dict, held: dict) -> None:
    short = sum(missing(needed, held).values())
    assert max(0, sum(needed.values()) - sum(held.values())) <= short <= sum(needed.values())


@given(NEEDS, HELD, st.sampled_from("abc"))
def test_one_more_adoption_never_makes_more_missing(needed: dict, held: dict, place: str) -> None:
    more = {**held, place: held.get(place, 0) + 1}
    assert sum(missing(needed, more).values()) <= sum(missing(needed, held).values())


@pytest.mark.parametrize("stage", Stage)
@pytest.mark.parametrize("state", AdoptionState)
def test_stalled_to_the_day(state: AdoptionState, stage: Stage) -> None:
    after = STALLED_AFTER.get(stage, timedelta(days=10_000))
    counts = state in CAN_STALL and stage is not Stage.BANKED
    assert is_stalled(state, stage, NOW - after, NOW) == counts
    assert not is_stalled(state, stage, NOW - after + timedelta(seconds=1), NOW)


def test_every_stage_but_the_last_has_its_patience_and_somebody_it_waits_for() -> None:
    assert set(STALLED_AFTER) == set(WAITS_FOR) == set(Stage) - {Stage.BANKED}


@pytest.mark.parametrize(
    ("banked", "adoptions", "drawn"),
    [(0, 0, 0), (0, 5, 0), (1, 3, 1), (1, 2, 2), (2, 3, 2), (3, 4, 3), (4, 4, 3)],
)
def test_how_a_district_is_drawn(banked: int, adoptions: int, drawn: int) -> None:
    assert shade(banked, adoptions) == drawn
