"""Shares from tests of a few seeds: bounds, mirrors, coverage and what a test can prove."""

import math
from itertools import pairwise
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import binomtest

from hub.science.counts import counted_seeds
from hub.science.proportions import (
    Trial,
    bad_share_not_ruled_out,
    exact_share,
    seeds_to_estimate,
    seeds_to_prove,
    viable_seeds,
    wilson_share,
)
from hub.science.quantity import Estimate, Evidence, OutOfRange, Source, Unit

levels = st.floats(0.5, 0.999)


@st.composite
def trials(draw, largest=400):
    tested = draw(st.integers(1, largest))
    return Trial(draw(st.integers(0, tested)), tested)


@given(trials(), levels, st.sampled_from([wilson_share, exact_share]))
def test_the_interval_holds_the_share_within_0_and_1(trial, level, share_of):
    figure = share_of(trial, level=level)
    assert 0 <= figure.low <= figure.value <= figure.high <= 1


@given(trials(), levels)
def test_intervals_agree_with_scipy(trial, level):
    library = binomtest(trial.good, trial.tested)
    for figure, method in (
        (wilson_share(trial, level=level), "wilson"),
        (exact_share(trial, level=level), "exact"),
    ):
        expected = library.proportion_ci(level, method=method)
        assert (figure.low, figure.high) == pytest.approx((expected.low, expected.high), abs=1e-9)


@given(trials(), st.sampled_from([wilson_share, exact_share]))
def test_bad_seed_is_the_mirror_of_good(trial, share_of):
    good, bad = share_of(trial), share_of(Trial(trial.tested - trial.good, trial.tested))
    assert (1 - bad.high, 1 - bad.low) == pytest.approx((good.low, good.high), abs=1e-9)


@given(trials(), levels)
def test_the_exact_interval_covers_at_least_its_level_at_its_own_end(trial, level):
    """At the low end, so many good seeds or more come up no oftener than half of what is left over."""
    low = exact_share(trial, level=level).low
    if trial.good:
        tail = binomtest(trial.good, trial.tested, low, alternative="greater").pvalue
        assert tail == pytest.approx((1 - level) / 2, rel=1e-6)


@given(st.integers(1, 300), levels)
def test_when_all_were_good_the_bound_is_a_plain_power(tested, level):
    bound = bad_share_not_ruled_out(Trial(tested, tested), level=level)
    assert bound == pytest.approx(1 - (1 - level) ** (1 / tested), rel=1e-9)


@given(st.integers(0, 60), levels)
def test_more_bad_seeds_never_prove_more(bad, level):
    assert bad_share_not_ruled_out(Trial(60 - bad, 60), level=level) <= bad_share_not_ruled_out(
        Trial(max(59 - bad, 0), 60), level=level
    )
    assert bad_share_not_ruled_out(Trial(0, 60), level=level) == 1


@given(st.floats(0.05, 0.99), st.integers(0, 5), st.floats(0.5, 0.99))
def test_the_seeds_to_prove_a_share_suffice_and_one_fewer_does_not(share, bad, level):
    n = seeds_to_prove(share, bad=bad, level=level)
    assert bad_share_not_ruled_out(Trial(n - bad, n), level=level) <= 1 - share
    assert n == bad + 1 or bad_share_not_ruled_out(Trial(n - 1 - bad, n - 1), level=level) > 1 - share


@pytest.mark.parametrize("bad", [0, 1, 10, 100])
@pytest.mark.parametrize("share", [0.01, 0.5, 0.99])
def test_the_surest_plans_are_within_reach(share, bad):
    n = seeds_to_prove(share, bad=bad, level=0.9999)
    assert bad_share_not_ruled_out(Trial(n - bad, n), level=0.9999) <= 1 - share


@given(st.floats(0.05, 0.95), st.floats(0.01, 0.4))
def test_seeds_to_estimate_give_the_half_width_asked_for(share, half_width):
    n = seeds_to_estimate(share, half_width)
    assert 1.959964 * math.sqrt(share * (1 - share) / n) <= half_width * (1 + 1e-9)


@given(st.integers(0, 10**6), trials(), trials())
def test_living_seeds_are_never_more_than_seeds(count, filled, viable):
    figure = viable_seeds(counted_seeds(count), filled, viable)
    assert 0 <= figure.low <= figure.value <= count
    assert figure.value <= figure.high


@pytest.mark.parametrize(
    ("filled", "viable"),
    [(Trial(45, 50), Trial(82, 100)), (Trial(10, 10), Trial(20, 20)), (Trial(3, 10), Trial(8, 20))],
)
def test_living_seeds_agree_with_simulation(filled, viable):
    lots = Random(11)  # noqa: S311 - a simulation that can be run again
    simulated = sorted(
        10_000
        * math.prod(lots.betavariate(good + 0.5, tested - good + 0.5) for good, tested in (filled, viable))
        for _ in range(40_000)
    )
    figure = viable_seeds(counted_seeds(10_000), filled, viable)
    assert figure.low == pytest.approx(simulated[1_000], rel=0.05)
    assert figure.high == pytest.approx(max(simulated[39_000], figure.value), rel=0.05)


def test_an_uncertain_count_widens_the_interval_and_hands_on_its_warnings():
    sure = viable_seeds(counted_seeds(1000), Trial(45, 50), Trial(82, 100))
    rough = Estimate(1000, Unit.SEEDS, 500, 1500, 0.95, Source("a test", Evidence.OWN), ("look again",))
    unsure = viable_seeds(rough, Trial(45, 50), Trial(82, 100))
    assert unsure.low < sure.low
    assert sure.high < unsure.high
    assert unsure.warnings == ("look again",)


@given(st.integers(1, 30))
def test_larger_cut_tests_prove_more(tested):
    bounds = [bad_share_not_ruled_out(Trial(n, n)) for n in (tested, tested + 1, tested + 2)]
    assert all(later < sooner for sooner, later in pairwise(bounds))


@pytest.mark.parametrize("trial", [Trial(0, 0), Trial(3, 2), Trial(-1, 5), Trial(math.nan, 5)])
def test_what_is_no_test_is_refused(trial):
    for question in (wilson_share, exact_share, bad_share_not_ruled_out):
        with pytest.raises(OutOfRange):
            question(trial)
    with pytest.raises(OutOfRange):
        viable_seeds(counted_seeds(10), trial, Trial(5, 5))
