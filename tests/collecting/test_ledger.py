"""Nothing is taken twice: the ledger of a population, by one group, by several, and by many at once."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from hub.collecting.actions import allow, give_back, release, reserve, take
from hub.collecting.queries import balance, entries_under, reserved_under, taken_under
from hub.protocols.models import IssuedSheet
from hub.words import Refused
from tests.cast import Cast
from tests.collecting.scene import ALLOWANCE, YEAR, Scene, set_scene


@pytest.fixture
def scene(cast: Cast) -> Scene:
    return set_scene(cast)


def figures(cast: Cast, scene: Scene) -> tuple[int, int, int]:
    with cast.work("cora") as work:
        found = balance(work, population_id=scene.population_id, year=YEAR)
    return found.reserved, found.taken, found.left


def test_what_is_reserved_is_no_longer_left(cast: Cast, scene: Scene) -> None:
    with cast.work("alice") as work:
        reserve(work, sheet=scene.sheets["alice"], year=YEAR, seeds=600)
    assert figures(cast, scene) == (600, 0, 400)


def test_another_group_cannot_reserve_past_the_allowance(cast: Cast, scene: Scene) -> None:
    with cast.work("alice") as work:
        reserve(work, sheet=scene.sheets["alice"], year=YEAR, seeds=600)
    with pytest.raises(Refused, match="Only 400 seeds"), cast.work("charlie") as work:
        reserve(work, sheet=scene.sheets["charlie"], year=YEAR, seeds=401)
    assert figures(cast, scene) == (600, 0, 400)


def test_a_neighbours_entries_stay_unseen(cast: Cast, scene: Scene) -> None:
    with cast.work("alice") as work:
        reserve(work, sheet=scene.sheets["alice"], year=YEAR, seeds=600)
    with cast.work("charlie") as work:
        assert entries_under(work, scene.sheets["alice"].id) == []
        assert balance(work, population_id=scene.population_id, year=YEAR).left == 400


def test_taking_uses_up_what_was_reserved_first(cast: Cast, scene: Scene) -> None:
    sheet = scene.sheets["alice"]
    with cast.work("alice") as work:
        reserve(work, sheet=sheet, year=YEAR, seeds=600)
        take(work, sheet=sheet, year=YEAR, seeds=450)
    assert figures(cast, scene) == (150, 450, 400)
    with cast.work("alice") as work:
        assert release(work, sheet=sheet, year=YEAR) == 150
    assert figures(cast, scene) == (0, 450, 550)


def test_what_left_is_recorded_even_past_the_allowance(cast: Cast, scene: Scene) -> None:
    with cast.work("alice") as work:
        take(work, sheet=scene.sheets["alice"], year=YEAR, seeds=ALLOWANCE + 50)
    assert figures(cast, scene) == (0, ALLOWANCE + 50, 0)


def test_giving_back_stops_at_what_was_taken(cast: Cast, scene: Scene) -> None:
    sheet = scene.sheets["alice"]
    with cast.work("alice") as work:
        take(work, sheet=sheet, year=YEAR, seeds=100)
    with cast.work("cora") as work:
        give_back(work, sheet=sheet, year=YEAR, seeds=30, note="counted again")
    assert figures(cast, scene) == (0, 70, 930)
    with pytest.raises(Refused, match="Only 70 seeds"), cast.work("cora") as work:
        give_back(work, sheet=sheet, year=YEAR, seeds=71, note="counted again")


def test_a_group_frees_nothing_of_what_it_took(cast: Cast, scene: Scene) -> None:
    with cast.work("alice") as work:
        take(work, sheet=scene.sheets["alice"], year=YEAR, seeds=100)
    with pytest.raises(Refused, match="Only the bank"), cast.work("alice") as work:
        give_back(work, sheet=scene.sheets["alice"], year=YEAR, seeds=1, note="counted again")
    assert figures(cast, scene) == (0, 100, 900)


def test_a_lowered_allowance_leaves_nothing(cast: Cast, scene: Scene) -> None:
    with cast.work("alice") as work:
        reserve(work, sheet=scene.sheets["alice"], year=YEAR, seeds=600)
    with cast.work("cora") as work:
        allow(work, population_id=scene.population_id, year=YEAR, seeds=300)
    assert figures(cast, scene) == (600, 0, 0)


def test_no_interleaving_of_groups_passes_the_allowance(cast: Cast, scene: Scene) -> None:
    """Forty attempts of 90 seeds by two groups at once, against an allowance for eleven of them."""

    def attempt(number: int) -> int:
        name = ("alice", "charlie")[number % 2]
        try:
            with cast.work(name) as work:
                reserve(work, sheet=scene.sheets[name], year=YEAR, seeds=90)
        except Refused:
            return 0
        return 90

    with ThreadPoolExecutor(8) as pool:
        reserved = sum(pool.map(attempt, range(40)))
    assert reserved == 990
    assert figures(cast, scene) == (990, 0, 10)


MOVES = st.lists(
    st.tuples(
        st.sampled_from(["alice", "charlie"]),
        st.sampled_from(["reserve", "release", "take", "give back"]),
        st.integers(1, 500),
    ),
    max_size=12,
)


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(moves=MOVES)
def test_the_account_is_always_the_sum_of_its_entries(cast: Cast, moves: list[tuple[str, str, int]]) -> None:
    scene = getattr(cast, "scene", None) or set_scene(cast)
    cast.scene = scene  # type: ignore[attr-defined]  one scene for all the examples of one database
    for name, verb, seeds in moves:
        sheet = scene.sheets[name]
        try:
            with cast.work("cora" if verb == "give back" else name) as work:
                if verb == "reserve":
                    reserve(work, sheet=sheet, year=YEAR, seeds=seeds)
                elif verb == "release":
                    release(work, sheet=sheet, year=YEAR)
                elif verb == "take":
                    take(work, sheet=sheet, year=YEAR, seeds=seeds)
                else:
                    give_back(work, sheet=sheet, year=YEAR, seeds=seeds, note="a property test")
        except Refused:
            continue
    with cast.work("cora") as work:
        found = balance(work, population_id=scene.population_id, year=YEAR)
        sheets = scene.sheets.values()
        assert found.reserved == sum(reserved_under(work, sheet.id) for sheet in sheets)
        kept = [work.db.get(IssuedSheet, sheet.id) for sheet in sheets]
        assert [sheet.reserved_seeds for sheet in kept if sheet] == [
            reserved_under(work, sheet.id) for sheet in sheets
        ]
        assert found.taken == sum(taken_under(work, sheet.id) for sheet in sheets)
        assert [sheet.taken_seeds for sheet in kept if sheet] == [
            taken_under(work, sheet.id) for sheet in sheets
        ]
        assert found.reserved >= 0
        assert found.taken >= 0
