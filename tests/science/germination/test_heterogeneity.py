"""Replicates of any layout: what order and size change, and how often agreeing ones are called apart."""

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.stats import chi2_contingency

from hub.science.germination.heterogeneity import heterogeneity
from hub.science.germination.sources import DEALT, HETEROGENEITY
from hub.science.proportions import Trial
from hub.science.quantity import OutOfRange


@st.composite
def replicates(draw, least=0):
    sizes = draw(st.lists(st.integers(20, 200), min_size=2, max_size=8))
    return [Trial(draw(st.integers(least, size - least)), size) for size in sizes]


@given(replicates(least=10))
def test_large_replicates_agree_with_scipy(trials):
    good, tested = (sum(figures) for figures in zip(*trials, strict=True))
    assume(5 * tested <= 20 * min(good, tested - good))
    found = heterogeneity(trials)
    expected = chi2_contingency([[good, tested - good] for good, tested in trials], correction=False)
    assert found.chi_square == pytest.approx(expected.statistic, abs=1e-9)
    assert found.chance.value == pytest.approx(expected.pvalue, abs=1e-9)
    assert found.chance.source is HETEROGENEITY


@given(replicates(least=10))
def test_neither_order_nor_calling_good_bad_matters(trials):
    turned = [Trial(tested - good, tested) for good, tested in reversed(trials)]
    assert heterogeneity(turned).chi_square == pytest.approx(heterogeneity(trials).chi_square, abs=1e-9)


def test_small_replicates_are_dealt_out_anew():
    # Fisher’s exact test of 1 of 8 against 6 of 8 gives 0.0405594 (computed by scipy).
    found = heterogeneity([Trial(1, 8), Trial(6, 8)])
    assert found.chance.source is DEALT
    assert found.chance.low <= 0.0405594 <= found.chance.high
    assert heterogeneity([Trial(1, 8), Trial(6, 8)]) == found


def test_agreeing_replicates_are_seldom_called_apart():
    rng = np.random.default_rng(5)
    tests = [[Trial(int(good), 50) for good in rng.binomial(50, 0.8, 4)] for _ in range(2000)]
    apart = sum(heterogeneity(trials).chance.value < 0.05 for trials in tests)
    assert 0.035 <= apart / len(tests) <= 0.065


@pytest.mark.parametrize("good", [0, 25])
def test_all_good_or_all_bad_agrees(good):
    found = heterogeneity([Trial(good, 25)] * 4)
    assert (found.chi_square, found.dispersion, found.chance.value) == (0, 0, 1)


@pytest.mark.parametrize(
    "trials",
    [
        [],
        [Trial(5, 10)],
        [Trial(5, 10), Trial(0, 0)],
        [Trial(5, 10), Trial(11, 10)],
        [Trial(-1, 10), Trial(5, 10)],
        [Trial(5, 10)] * 201,
    ],
)
def test_layouts_that_cannot_be_are_refused(trials):
    with pytest.raises(OutOfRange):
        heterogeneity(trials)
