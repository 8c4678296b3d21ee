"""Sowing numbers against figures that scipy computes, and one that the sampling of alleles shares."""

import pytest
from scipy.stats import betabinom, nbinom

from hub.science.nursery.cells import empty_cells
from hub.science.nursery.sowing import chance_of_plants, seeds_to_sow, seeds_to_sow_after_test, share_through
from hub.science.proportions import Trial


# Computed by scipy: nbinom.ppf(0.95, N, p) + N.
@pytest.mark.parametrize(
    ("plants", "share", "seeds"), [(1, 0.5, 5), (1, 0.05, 59), (5, 0.3, 28), (10, 0.3, 49), (10, 0.42, 34)]
)
def test_independent_seeds(plants, share, seeds):
    assert seeds_to_sow(plants, share).value == seeds == nbinom.ppf(0.95, plants, share) + plants


# Computed by scipy: 28 seeds at 0.3 give five plants with 0.95257, one fewer with 0.94090.
def test_the_chance_itself():
    assert chance_of_plants(28, 5, 0.3) == pytest.approx(0.95257, abs=5.1e-6)
    assert chance_of_plants(27, 5, 0.3) == pytest.approx(0.94090, abs=5.1e-6)


def test_three_stages():
    assert seeds_to_sow(10, share_through([0.8, 0.7, 0.75])).value == 34


# Computed by scipy’s beta-binomial.
@pytest.mark.parametrize(
    ("share", "likeness", "seeds"),
    [(0.42, 0.01, 36), (0.42, 0.05, 46), (0.42, 0.10, 61), (0.30, 0.05, 76), (0.30, 0.10, 117)],
)
def test_batches_that_differ(share, likeness, seeds):
    assert seeds_to_sow(10, share, likeness=likeness).value == seeds
    a, b = share * (1 - likeness) / likeness, (1 - share) * (1 - likeness) / likeness
    assert betabinom.sf(9, seeds, a, b) >= 0.95 > betabinom.sf(9, seeds - 1, a, b)


# Computed: a share known from 42 of 60 alone asks for one seed more than 0.7 known for sure.
def test_a_share_known_from_a_test():
    assert seeds_to_sow_after_test(10, Trial(42, 60)).value == 20
    assert seeds_to_sow(10, 0.7).value == 19


@pytest.mark.parametrize(
    ("share", "seeds", "empty"), [(0.74, 3, 0.0176), (0.65, 3, 0.0429), (0.5, 4, 0.0625), (0.8, 2, 0.04)]
)
def test_empty_cells(share, seeds, empty):
    assert empty_cells(share, seeds).value == pytest.approx(empty, abs=5.1e-5)
