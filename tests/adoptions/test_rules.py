"""The table of moves walked in every pair, who may adopt what, and when an adoption lapses."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from itertools import product
from uuid import uuid4

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.adoptions.rules import (
    ADOPTION_MOVES,
    STAGES,
    AdoptionState,
    Ask,
    Stage,
    holding_key,
    is_further,
    lapses,
    may_ask,
    may_become,
    sole_key,
    waits_for_curator,
)
from hub.groups.rules import AdoptionMode
from hub.taxa.rules import CareClass

# The moves as the plan of the house draws them, written down a second time on purpose.
DRAWN = {
    ("requested", "active"),
    ("requested", "declined"),
    ("active", "fulfilled"),
    ("active", "released"),
    ("active", "lapsed"),
    ("active", "suspended"),
    ("suspended", "active"),
}
FINE = Ask(
    group_active=True,
    season_over=False,
    wanted=True,
    native=True,
    care=CareClass.SECURE,
    held_by_us=False,
    groups_with_it=2,
    groups_per_species=3,
    in_hand=3,
    adoptions_per_group=4,
)


@pytest.mark.parametrize(("state", "wanted"), list(product(AdoptionState, AdoptionState)))
def test_only_the_drawn_moves_are_possible(state: AdoptionState, wanted: AdoptionState) -> None:
    assert may_become(state, wanted) == ((state.value, wanted.value) in DRAWN)


def test_every_state_stands_in_the_table() -> None:
    assert set(ADOPTION_MOVES) == set(AdoptionState)


@pytest.mark.parametrize(("stage", "than"), list(product(Stage, Stage)))
def test_a_stage_is_further_by_its_place_in_the_season(stage: Stage, than: Stage) -> None:
    assert is_further(stage, than) == (STAGES.index(stage) > STAGES.index(than))


def test_a_group_within_all_limits_may_ask() -> None:
    assert may_ask(FINE) is None


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"group_active": False}, "not active"),
        ({"season_over": True}, "over"),
        ({"held_by_us": True}, "already"),
        ({"wanted": False}, "wanted list"),
        ({"care": CareClass.GONE}, "thought to be gone"),
        ({"native": False}, "not native"),
        ({"groups_with_it": 3}, "Only 3 groups"),
        ({"groups_with_it": 1, "groups_per_species": 1}, "Only 1 group may"),
        ({"in_hand": 4}, "4 species at a time"),
    ],
)
def test_each_reason_alone_is_enough(change: dict[str, object], says: str) -> None:
    against = may_ask(replace(FINE, **change))  # type: ignore[arg-type]
    assert against is not None
    assert says in str(against)


@given(st.integers(0, 9), st.integers(1, 9), st.integers(0, 9), st.integers(1, 9))
def test_no_number_passes_a_limit(with_it: int, most: int, busy: int, hands: int) -> None:
    ask = replace(
        FINE, groups_with_it=with_it, groups_per_species=most, in_hand=busy, adoptions_per_group=hands
    )
    assert (may_ask(ask) is None) == (with_it < most and busy < hands)


@pytest.mark.parametrize(("mode", "care"), list(product(AdoptionMode, CareClass)))
def test_a_curator_decides_by_policy_and_always_on_critical_plants(
    mode: AdoptionMode, care: CareClass
) -> None:
    assert waits_for_curator(mode, care) == (mode is AdoptionMode.CURATOR or care is CareClass.CRITICAL)


LAST, SINCE = date(2031, 9, 1), date(2031, 3, 8)
DONE = [None, SINCE - timedelta(days=1), SINCE, LAST]


@pytest.mark.parametrize(("state", "stage", "done"), list(product(AdoptionState, Stage, DONE)))
def test_only_an_active_adoption_without_any_activity_lapses(
    state: AdoptionState, stage: Stage, done: date | None
) -> None:
    untouched = stage == "adopted" and done in DONE[:2]
    facts = {"state": state, "stage": stage, "since": SINCE, "last_done": done, "lapses_on": LAST}
    assert lapses(today=LAST, **facts) == (untouched and state == "active")  # type: ignore[arg-type]
    assert not lapses(today=LAST - timedelta(days=1), **facts)  # type: ignore[arg-type]


@pytest.mark.parametrize("care", CareClass)
def test_a_population_of_rare_plants_has_a_key_that_only_one_can_hold(care: CareClass) -> None:
    season, population = uuid4(), uuid4()
    key = sole_key(care, season, population)
    alone = care in (CareClass.RARE, CareClass.CRITICAL, CareClass.UNKNOWN)
    assert (key is not None) == alone
    assert key in (None, f"{season}:{population}")
    assert key is None or (len(key) <= 80 and key != sole_key(care, uuid4(), population))


def test_the_key_of_a_holding_is_its_own_and_fits_its_column() -> None:
    group, season, taxon = uuid4(), uuid4(), uuid4()
    key = holding_key(group, season, taxon)
    assert key == holding_key(group, season, taxon)
    assert (
        len({key, *(holding_key(*each) for each in ((season, group, taxon), (group, season, uuid4())))}) == 3
    )
    assert len(key) <= 80
