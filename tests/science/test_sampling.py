"""Chances of catching alleles: bounds, directions and round trips that theory demands."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy import stats

from hub.science.quantity import OutOfRange, Unit
from hub.science.sampling import (
    capture_by_gametes,
    capture_by_mothers,
    capture_in_small_population,
    capture_of_all,
    expected_alleles,
    gametes_for_all,
    gametes_needed,
    inbreeding_from_selfing,
    miss_by_one_mother,
    miss_without_replacement,
    mothers_needed,
)

shares = st.floats(0, 1)
frequencies = st.floats(0.001, 0.999)
wanted = st.floats(0.01, 0.9999)
counts = st.integers(0, 2000)


@given(frequencies, counts)
def test_more_gametes_never_catch_less(frequency, count):
    one, more = capture_by_gametes(frequency, count), capture_by_gametes(frequency, count + 1)
    assert 0 <= one.value <= more.value <= 1
    assert one.unit is Unit.SHARE


@given(frequencies, counts)
def test_a_commoner_allele_is_never_harder_to_catch(frequency, count):
    commoner = min(frequency * 1.1, 1)
    assert capture_by_mothers(frequency, count).value <= capture_by_mothers(commoner, count).value


@given(frequencies, counts, st.floats(0, 0.9))
def test_inbred_mothers_never_carry_more_alleles(frequency, count, inbreeding):
    less = capture_by_mothers(frequency, count, inbreeding=inbreeding).value
    more = capture_by_mothers(frequency, count, inbreeding=inbreeding + 0.1).value
    assert more <= less + 1e-12


@given(frequencies, counts)
def test_outcrossed_mothers_bring_two_gametes_and_inbred_ones_one(frequency, count):
    outcrossed = capture_by_mothers(frequency, count)
    inbred = capture_by_mothers(frequency, count, inbreeding=1)
    assert outcrossed.value == pytest.approx(capture_by_gametes(frequency, 2 * count).value)
    assert inbred.value == pytest.approx(capture_by_gametes(frequency, count).value)


@given(frequencies, wanted, st.floats(-0.2, 1))
def test_the_mothers_needed_suffice_and_one_fewer_does_not(frequency, probability, inbreeding):
    needed = mothers_needed(frequency, probability, inbreeding=inbreeding)
    assert capture_by_mothers(frequency, needed, inbreeding=inbreeding).value >= probability - 1e-9
    assert capture_by_mothers(frequency, needed - 1, inbreeding=inbreeding).value < probability + 1e-9


@given(frequencies, wanted)
def test_the_gametes_needed_suffice_and_one_fewer_does_not(frequency, probability):
    needed = gametes_needed(frequency, probability)
    assert capture_by_gametes(frequency, needed).value >= probability - 1e-9
    assert capture_by_gametes(frequency, needed - 1).value < probability + 1e-9


@pytest.mark.parametrize("frequency", [0, 1])
def test_an_absent_allele_is_never_caught_and_a_fixed_one_always(frequency):
    assert capture_by_mothers(frequency, 30).value == frequency
    assert capture_by_mothers(frequency, 0).value == 0


def test_a_fixed_allele_needs_one_mother_and_no_certainty_needs_none():
    assert mothers_needed(1, 0.95) == 1
    assert mothers_needed(1, 0) == 0
    assert mothers_needed(0.05, 0) == 0


def test_certainty_and_absent_alleles_are_refused():
    with pytest.raises(OutOfRange):
        mothers_needed(0.05, 1)
    with pytest.raises(OutOfRange):
        gametes_needed(0, 0.95)
    with pytest.raises(OutOfRange):
        mothers_needed(0, 0.95)


def test_an_excess_of_heterozygotes_goes_no_further_than_the_frequency_allows():
    assert miss_by_one_mother(0.6, -1) == 0


@pytest.mark.parametrize(("selfing", "inbreeding"), [(0, 0), (0.5, 1 / 3), (1, 1)])
def test_selfing_leads_to_inbreeding(selfing, inbreeding):
    assert inbreeding_from_selfing(selfing) == pytest.approx(inbreeding)


@given(st.integers(1, 300), st.data())
def test_drawing_without_replacement_agrees_with_scipy(total, data):
    marked = data.draw(st.integers(0, total))
    drawn = data.draw(st.integers(0, total))
    expected = stats.hypergeom.pmf(0, total, marked, drawn)
    assert miss_without_replacement(total, marked, drawn) == pytest.approx(expected, abs=1e-12)


@given(st.integers(10, 400), st.data(), st.floats(0.05, 0.5))
def test_a_small_population_hides_an_allele_less_well_than_an_endless_one(population, data, frequency):
    assume(round(2 * population * frequency) == math.floor(2 * population * frequency))
    copies = round(2 * population * frequency)
    mothers = data.draw(st.integers(0, population))
    small = capture_in_small_population(frequency, mothers, population).value
    assert small >= capture_by_mothers(copies / (2 * population), mothers).value - 1e-9


@pytest.mark.parametrize(("population", "mothers", "copies"), [(20, 10, 2), (50, 10, 5), (150, 60, 15)])
def test_a_small_population_agrees_with_scipy(population, mothers, copies):
    expected = 1 - stats.hypergeom.pmf(0, 2 * population, copies, 2 * mothers)
    assert capture_in_small_population(0.05, mothers, population).value == pytest.approx(expected)


def test_every_plant_together_holds_every_allele_once_and_says_when_it_is_one_copy():
    figure = capture_in_small_population(0.01, 10, 10)
    assert figure.value == 1
    assert "single copy" in str(figure.warnings[0])
    assert capture_in_small_population(0.05, 10, 10).warnings == ()


def test_no_more_mothers_than_plants():
    with pytest.raises(OutOfRange):
        capture_in_small_population(0.05, 11, 10)


@given(st.floats(0.001, 0.5), st.integers(1, 500))
def test_one_allele_is_a_case_of_many(frequency, gametes):
    alone = capture_by_gametes(frequency, gametes).value
    assert capture_of_all([frequency], gametes).value == pytest.approx(alone, abs=1e-12)


@given(st.lists(st.floats(0.01, 0.1), min_size=1, max_size=8), st.integers(0, 300))
def test_all_alleles_are_never_likelier_than_the_rarest(frequencies, gametes):
    together = capture_of_all(frequencies, gametes).value
    assert together <= capture_by_gametes(min(frequencies), gametes).value + 1e-9


@given(st.lists(st.floats(0.01, 0.1), min_size=1, max_size=8), st.integers(0, 300))
def test_expected_alleles_stay_between_none_and_all(frequencies, gametes):
    figure = expected_alleles(frequencies, gametes)
    assert 0 <= figure.value <= len(frequencies)
    assert figure.unit is Unit.ALLELES


@given(st.floats(0.01, 0.5), st.integers(2, 10), st.integers(1, 200), wanted)
def test_gametes_for_all_suffice_by_the_sum_of_losses(frequency, alleles, loci, probability):
    needed = gametes_for_all(frequency, alleles=alleles, loci=loci, wanted=probability)
    loss_per_locus = (alleles - 1) * (1 - frequency) ** needed
    assert loss_per_locus <= -math.expm1(math.log(probability) / loci) * (1 + 1e-6)


def test_too_many_alleles_or_more_than_the_whole_are_refused():
    with pytest.raises(OutOfRange):
        capture_of_all([0.01] * 13, 10)
    with pytest.raises(OutOfRange):
        capture_of_all([0.6, 0.6], 10)
