"""What unequal mothers are worth: bounds, directions and limits."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.science.mothers import (
    capture_by_families,
    effective_mothers,
    effective_size,
    expected_donors,
    expected_mothers_in,
)
from hub.science.quantity import OutOfRange, Unit
from hub.science.sampling import capture_by_gametes, capture_by_mothers

families = st.lists(st.integers(0, 500), min_size=1, max_size=40)
seeded = st.lists(st.integers(1, 500), min_size=1, max_size=40)
shares = st.floats(0, 1)


@given(seeded)
def test_effective_mothers_lie_between_one_and_their_number(seeds):
    assert 1 - 1e-9 <= effective_mothers(seeds).value <= len(seeds) + 1e-9


@given(st.integers(1, 100), st.integers(1, 1000))
def test_equal_mothers_count_in_full(mothers, seeds):
    figure = effective_mothers([seeds] * mothers)
    assert figure.value == pytest.approx(mothers)
    assert figure.unit is Unit.MOTHERS


@given(seeded, st.integers(2, 9))
def test_effective_mothers_know_shares_and_not_amounts(seeds, times):
    assert effective_mothers([times * count for count in seeds]).value == pytest.approx(
        effective_mothers(seeds).value
    )


@given(seeded)
def test_mothers_without_seed_count_for_nothing(seeds):
    assert effective_mothers([*seeds, 0, 0]).value == pytest.approx(effective_mothers(seeds).value)
    assert effective_size([*seeds, 0]).value == pytest.approx(effective_size(seeds).value)


@pytest.mark.parametrize("seeds", [[], [0], [0, 0, 0]])
def test_no_seed_no_mothers(seeds):
    assert effective_mothers(seeds).value == 0
    assert effective_size(seeds).value == 0


@given(seeded, shares)
def test_effective_size_stays_between_the_limits_of_full_and_half_sibs(seeds, paternity):
    figure = effective_size(seeds, correlated_paternity=paternity).value
    mothers = effective_mothers(seeds).value
    assert figure <= 4 * mothers + 1e-6
    assert effective_size(seeds, correlated_paternity=1).value - 1e-9 <= figure
    assert figure <= effective_size(seeds).value + 1e-9
    assert figure <= sum(seeds) + 1e-9


@given(st.floats(0.001, 0.999), families, shares, shares)
def test_one_more_family_never_catches_less(frequency, seeds, selfing, inbreeding):
    fewer = capture_by_families(frequency, seeds, selfing=selfing, inbreeding=inbreeding)
    more = capture_by_families(frequency, [*seeds, 3], selfing=selfing, inbreeding=inbreeding)
    assert 0 <= fewer.value <= more.value + 1e-12


@given(st.floats(0.001, 0.999), st.integers(1, 200))
def test_one_seed_of_each_mother_is_two_gametes(frequency, mothers):
    caught = capture_by_families(frequency, [1] * mothers).value
    assert caught == pytest.approx(capture_by_gametes(frequency, 2 * mothers).value, abs=1e-12)


@given(st.floats(0.001, 0.999), st.integers(1, 100), st.integers(1, 50))
def test_seed_of_wholly_selfed_lines_adds_nothing_to_their_mothers(frequency, mothers, seeds):
    caught = capture_by_families(frequency, [seeds] * mothers, selfing=1, inbreeding=1).value
    assert caught == pytest.approx(capture_by_mothers(frequency, mothers, inbreeding=1).value, abs=1e-12)


@given(st.floats(0.001, 0.999), shares, shares)
def test_one_seed_is_one_plant_of_the_next_generation(frequency, selfing, inbreeding):
    """Selfing brings 1 + F of half the way to full inbreeding, crossing undoes all of it."""
    next_inbreeding = selfing * (1 + inbreeding) / 2
    caught = capture_by_families(frequency, [1], selfing=selfing, inbreeding=inbreeding).value
    expected = capture_by_mothers(frequency, 1, inbreeding=next_inbreeding).value
    assert caught == pytest.approx(expected, abs=1e-12)


def test_the_figure_warns_of_its_endless_pollen():
    assert "pollen" in str(capture_by_families(0.05, [10]).warnings[0])


def test_no_seed_catches_nothing():
    assert capture_by_families(0.05, [0, 0]).value == 0


@given(st.integers(0, 5000), st.integers(1, 5000))
def test_no_more_donors_than_seeds_or_than_there_are(seeds, donors):
    figure = expected_donors(seeds, donors).value
    assert -1e-9 <= figure <= min(seeds, donors) + 1e-6


@given(seeded, st.data())
def test_a_draw_holds_no_more_mothers_than_the_whole_or_than_its_seeds(seeds, data):
    drawn = data.draw(st.integers(0, sum(seeds)))
    figure = expected_mothers_in(seeds, drawn).value
    assert figure <= min(len(seeds), drawn) + 1e-9
    assert expected_mothers_in(seeds, sum(seeds)).value == len(seeds)


@given(seeded)
def test_rarefaction_rises_with_the_draw(seeds):
    curve = [expected_mothers_in(seeds, drawn).value for drawn in range(min(sum(seeds), 30))]
    assert curve == sorted(curve)


def test_more_seed_than_there_is_cannot_be_drawn():
    with pytest.raises(OutOfRange):
        expected_mothers_in([3, 4], 8)
    with pytest.raises(OutOfRange):
        effective_mothers([5, -1])
