"""What may be taken: never more than the share of the low end, in whole fruits, rounded down."""

import math
from fractions import Fraction
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.science.population import sample_mean
from hub.science.quantity import Estimate, Evidence, OutOfRange, Source, Unit, normal_deviate
from hub.science.take import (
    LARGEST_CROP,
    allowance,
    most_from_mother,
    one_in,
    seed_crop,
    share_taken,
    whole_share,
)

TESTED = Source("a test", Evidence.OWN)


def measured(value: float, standard_error: float) -> Estimate:
    reach = normal_deviate(0.95) * standard_error
    return Estimate(value, Unit.VALUES, value - reach, value + reach, 0.95, TESTED)


factors = st.lists(
    st.builds(lambda value, cv: measured(value, value * cv), st.floats(0.1, 1000), st.floats(0, 2)),
    min_size=1,
    max_size=5,
)
percents = st.integers(1, 100).map(lambda percent: percent / 100)
per_fruit = st.floats(0.1, 200).map(lambda seeds: Estimate.exact(seeds, Unit.SEEDS, TESTED))


@given(factors)
def test_the_interval_of_a_crop_holds_it(parts):
    figure = seed_crop(parts)
    assert 0 <= figure.low <= figure.value <= figure.high
    assert figure.value == pytest.approx(math.prod(part.value for part in parts))


@given(factors, st.floats(0, 1))
def test_one_more_uncertain_factor_never_raises_the_low_end(parts, cv):
    assert seed_crop([*parts, measured(1, cv)]).low <= seed_crop(parts).low * (1 + 1e-12)


@given(st.lists(st.floats(1, 500), min_size=1, max_size=5))
def test_exact_factors_make_an_exact_crop(values):
    figure = seed_crop([Estimate.exact(value, Unit.VALUES, TESTED) for value in values])
    assert figure.low == figure.value == figure.high


@given(st.floats(10, 1000), st.floats(0.01, 0.5))
def test_one_factor_alone_keeps_its_own_relative_error(value, cv):
    """The lognormal with this mean and error: its variance read back from the two ends."""
    figure = seed_crop([measured(value, cv * value)])
    log_error = math.log(figure.high / figure.low) / (2 * normal_deviate(0.9))
    assert math.sqrt(math.expm1(log_error**2)) == pytest.approx(cv)


def test_the_ends_are_the_quantiles_that_simulation_finds():
    parts = [measured(400, 60), measured(0.6, 0.05), measured(12, 2), measured(25, 3)]
    lots = Random(7)  # noqa: S311 - a simulation that can be run again
    logs = [math.log1p((part.standard_error / part.value) ** 2) for part in parts]
    simulated = sorted(
        math.prod(
            part.value * lots.lognormvariate(-log / 2, math.sqrt(log))
            for part, log in zip(parts, logs, strict=True)
        )
        for _ in range(40_000)
    )
    figure = seed_crop(parts)
    assert figure.low == pytest.approx(simulated[2_000], rel=0.015)
    assert figure.high == pytest.approx(simulated[38_000], rel=0.015)


def test_no_plants_promise_nothing_but_may_be_some():
    figure = seed_crop([Estimate(0, Unit.PLANTS, 0, 30, 0.95, TESTED), measured(10, 1)])
    assert (figure.value, figure.low) == (0, 0)
    assert figure.high > 300


def test_a_rough_crop_says_so_and_warnings_are_told_once():
    few = sample_mean([1, 2, 3], Unit.FRUITS)
    said = [str(warning) for warning in seed_crop([few, few, measured(100, 60)]).warnings]
    assert len(said) == 2
    assert "rough" in said[1]


def test_a_crop_needs_factors_and_a_possible_size():
    with pytest.raises(OutOfRange):
        seed_crop([])
    with pytest.raises(OutOfRange):
        seed_crop([measured(1e9, 0)] * 2)


@given(percents, st.integers(0, 10**6))
def test_a_whole_share_never_passes_the_share_and_misses_it_by_less_than_one(share, amount):
    exact = Fraction(round(share * 100), 100) * amount
    assert whole_share(share, amount) <= exact < whole_share(share, amount) + 1


def test_a_share_is_the_decimal_that_people_wrote():
    assert math.floor(0.29 * 100) == 28  # what floating point alone would answer
    assert whole_share(0.29, 100) == 29


@given(percents)
def test_one_in_so_many_never_allows_more_than_the_share(share):
    assert Fraction(1, one_in(share)) <= Fraction(str(share))


@given(percents, factors, per_fruit)
def test_an_allowance_never_passes_the_share_of_the_low_end(share, parts, seeds):
    crop = seed_crop(parts)
    allowed = allowance(share, crop, seeds)
    assert allowed.seeds <= Fraction(str(share)) * Fraction(crop.low)
    assert allowed.fruits * Fraction(seeds.value) <= allowed.seeds
    assert allowed.seeds - allowed.fruits * Fraction(seeds.value) < seeds.value


def test_less_than_one_fruit_is_nothing_and_says_so():
    crop = Estimate.exact(100, Unit.SEEDS, TESTED)
    allowed = allowance(0.1, crop, Estimate.exact(25, Unit.SEEDS, TESTED))
    assert (allowed.seeds, allowed.fruits) == (10, 0)
    assert "take nothing" in str(allowed.warnings[0])
    assert allowance(0.1, crop, Estimate.exact(10, Unit.SEEDS, TESTED)).warnings == ()


@given(percents, st.integers(0, 500), per_fruit, st.integers(0, 10**5), st.integers(1, 200))
def test_no_mother_gives_more_than_her_share_or_an_even_part(share, fruits, seeds, allowed, mothers):
    most = most_from_mother(share, fruits, seeds, allowed_seeds=allowed, mothers=mothers)
    assert most.fruits <= Fraction(str(share)) * fruits
    assert most.seeds * mothers <= allowed
    assert most.seeds <= most.fruits * Fraction(seeds.value)


def test_forty_ripe_fruits_at_a_tenth_are_four():
    ten = Estimate.exact(10, Unit.SEEDS, TESTED)
    assert most_from_mother(0.1, 40, ten, allowed_seeds=10_000, mothers=50).fruits == 4
    assert most_from_mother(0.1, 40, ten, allowed_seeds=1_000, mothers=50).fruits == 2


def test_fruits_without_seed_are_refused():
    with pytest.raises(OutOfRange):
        allowance(0.1, measured(1000, 10), Estimate.exact(0, Unit.SEEDS, TESTED))


@given(st.integers(0, 10**6), factors)
def test_a_share_taken_lies_between_nothing_and_all(taken, parts):
    figure = share_taken(taken, seed_crop(parts))
    assert 0 <= figure.low <= figure.value <= figure.high <= 1


def test_a_crop_is_at_least_what_came_off_it():
    crop = Estimate(100, Unit.SEEDS, 20, 400, 0.9, TESTED)
    figure = share_taken(50, crop)
    assert (figure.low, figure.value, figure.high) == (0.125, 0.5, 1)
    assert share_taken(0, Estimate.exact(0, Unit.SEEDS, TESTED)).high == 0
    with pytest.raises(OutOfRange):
        share_taken(LARGEST_CROP + 1, crop)
