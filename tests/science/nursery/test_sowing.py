"""Sowing: enough, never one seed more than that, and more where less is sure."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hub.science.nursery.cells import empty_cells, seeds_in_each_cell
from hub.science.nursery.sowing import chance_of_plants, seeds_to_sow, seeds_to_sow_after_test, share_through
from hub.science.proportions import Trial
from hub.science.quantity import OutOfRange
from hub.words import Refused

PLANTS, SHARE, CHANCE = st.integers(1, 200), st.floats(0.02, 1), st.floats(0.5, 0.99)


@given(PLANTS, SHARE, CHANCE)
def test_it_is_enough_and_one_less_is_not(plants, share, chance):
    needed = seeds_to_sow(plants, share, chance=chance).value
    assert chance_of_plants(needed, plants, share) >= chance
    assert chance_of_plants(needed - 1, plants, share) < chance


@settings(max_examples=40)
@given(PLANTS, st.floats(0.05, 0.95), st.sampled_from([0.0, 0.02, 0.1]), st.sampled_from([0.0, 0.02, 0.1]))
def test_the_more_alike_the_more_to_sow(plants, share, one, other):
    less, more = sorted((one, other))
    by_less, by_more = (seeds_to_sow(plants, share, likeness=each).value for each in (less, more))
    assert by_less <= by_more


@settings(max_examples=40)
@given(PLANTS, st.integers(5, 200), st.floats(0.3, 1))
def test_a_test_leaves_doubt_that_asks_for_more(plants, tested, share):
    good = max(round(share * tested), 1)
    from_test = seeds_to_sow_after_test(plants, Trial(good, tested), chance=0.95).value
    assert from_test >= seeds_to_sow(plants, (good + 0.5) / (tested + 1), chance=0.95).value - 1


def test_no_plants_need_no_seeds_and_certainty_needs_as_many():
    assert seeds_to_sow(0, 0.4).value == 0
    assert seeds_to_sow(12, 1, likeness=0.3).value == 12
    assert chance_of_plants(3, 5, 0.9) == 0
    assert chance_of_plants(0, 0, 0.5) == 1
    assert seeds_to_sow_after_test(0, Trial(3, 9)).value == 0


def test_what_no_number_of_seeds_gives_is_refused():
    with pytest.raises(Refused, match="No number of seeds"):
        seeds_to_sow(1000, 0.0001, likeness=0.5, chance=0.9999)


@pytest.mark.parametrize(
    ("plants", "share", "chance", "likeness"),
    [(-1, 0.5, 0.95, 0), (5, 0, 0.95, 0), (5, 1.1, 0.95, 0), (5, 0.5, 1, 0), (5, 0.5, 0.95, 0.6)],
)
def test_beyond_the_limits_it_refuses(plants, share, chance, likeness):
    with pytest.raises(OutOfRange):
        seeds_to_sow(plants, share, chance=chance, likeness=likeness)


def test_a_test_without_any_plant_tells_nothing():
    with pytest.raises(OutOfRange):
        seeds_to_sow_after_test(5, Trial(0, 20))


@given(st.lists(st.floats(0, 1), min_size=1, max_size=20))
def test_stages_only_take_away(stages):
    assert 0 <= share_through(stages) <= min(stages)


def test_stages_are_few_and_shares():
    for stages in ([], [0.5] * 21, [1.2]):
        with pytest.raises(OutOfRange):
            share_through(stages)


@given(st.floats(0.05, 1), st.floats(0.001, 1))
def test_so_many_in_a_cell_leave_no_more_empty(share, empty):
    needed = seeds_in_each_cell(share, empty).value
    assert empty_cells(share, needed).value <= empty * (1 + 1e-6)
    assert needed == 1 or empty_cells(share, needed - 1).value > empty * (1 - 1e-6)


def test_where_all_germinate_one_is_enough():
    assert seeds_in_each_cell(1, 0.001).value == 1


def test_cells_have_seeds():
    for share, seeds in ((0.5, 0), (1.5, 3)):
        with pytest.raises(OutOfRange):
            empty_cells(share, seeds)
