"""Even draws: what comes out adds up, never exceeds, and cannot be made more even."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.science.equal_draw import equal_draw
from hub.science.mothers import effective_mothers
from hub.science.quantity import OutOfRange

lines = st.lists(st.integers(0, 300), max_size=15)
lots = st.none() | st.integers(0, 99)


@st.composite
def draws(draw):
    available = draw(lines)
    return available, draw(st.integers(0, sum(available))), draw(lots)


@given(draws())
def test_a_draw_adds_up_and_no_line_gives_more_than_it_has(case):
    available, wanted, seed = case
    drawn = equal_draw(available, wanted, seed=seed)
    assert sum(drawn) == wanted
    assert all(0 <= taken <= there for taken, there in zip(drawn, available, strict=True))


@given(draws())
def test_no_seed_moved_from_one_line_to_another_makes_it_more_even(case):
    available, wanted, seed = case
    drawn = equal_draw(available, wanted, seed=seed)
    able = [taken for taken, there in zip(drawn, available, strict=True) if taken < there]
    assert max(drawn, default=0) <= min(able, default=10**6) + 1


@given(draws())
def test_the_same_recorded_seed_draws_the_same(case):
    available, wanted, seed = case
    assert equal_draw(available, wanted, seed=seed) == equal_draw(available, wanted, seed=seed)


def test_the_lot_decides_who_gives_the_odd_seed():
    assert {equal_draw([5, 5, 5], 1, seed=seed) for seed in range(30)} == {(1, 0, 0), (0, 1, 0), (0, 0, 1)}


def test_an_even_draw_stands_for_more_mothers_than_the_lot_it_comes_from():
    lot = [500, 200, 100, 100, 50, 20, 10, 10, 5, 5]
    assert effective_mothers(lot).value < 4
    assert effective_mothers(equal_draw(lot, 100)).value > 9


@pytest.mark.parametrize(("available", "wanted"), [([1, 2], 4), ([], 1), ([3], -1), ([-1, 2], 1)])
def test_more_than_there_is_or_less_than_nothing_is_refused(available, wanted):
    with pytest.raises(OutOfRange):
        equal_draw(available, wanted)
