"""Groups side by side: what scatter among replicates does to the verdict."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.science.germination.comparison import compare_groups
from hub.science.germination.heterogeneity import heterogeneity
from hub.science.germination.sources import SCATTER
from hub.science.proportions import Trial, wilson_share
from hub.science.quantity import OutOfRange

ALIKE = [[Trial(40, 50), Trial(41, 50)], [Trial(20, 50), Trial(21, 50)]]
RAGGED = [[Trial(50, 50), Trial(31, 50)], [Trial(35, 50), Trial(6, 50)]]


@st.composite
def grouped(draw):
    sizes = draw(st.lists(st.integers(1, 4), min_size=2, max_size=5))
    return [[Trial(draw(st.integers(0, 30)), 30) for _ in range(size)] for size in sizes]


@given(grouped())
def test_every_share_lies_in_its_interval_and_every_chance_is_one(groups):
    found = compare_groups(groups)
    assert found.scatter >= 1
    assert 0 <= found.chance.value <= 1
    for share, group in zip(found.shares, groups, strict=True):
        assert share.value == pytest.approx(sum(trial.good for trial in group) / (30 * len(group)))
        assert 0 <= share.low <= share.value <= share.high <= 1


def test_single_replicates_are_compared_as_they_are():
    found = compare_groups([[Trial(40, 50)], [Trial(20, 50)]])
    assert found.chance == heterogeneity([Trial(40, 50), Trial(20, 50)]).chance
    assert found.shares[0] == wilson_share(Trial(40, 50))


def test_ragged_replicates_take_from_the_certainty_of_the_same_shares():
    even, ragged = compare_groups(ALIKE), compare_groups(RAGGED)
    assert even.scatter == 1
    assert ragged.scatter > 10
    assert ragged.chance.source is SCATTER
    assert ragged.chance.value > 0.1 > 0.001 > even.chance.value
    assert ragged.shares[0].low < even.shares[0].low


def test_groups_that_are_alike_are_seldom_called_different_though_their_replicates_scatter():
    rng = np.random.default_rng(2)
    called = 0
    for _ in range(1000):
        shares = rng.beta(8, 4, (3, 4))
        groups = [[Trial(int(good), 50) for good in row] for row in rng.binomial(50, shares)]
        called += compare_groups(groups).chance.value < 0.05
    assert 0.03 <= called / 1000 <= 0.07


@pytest.mark.parametrize(
    "groups",
    [
        [],
        [[Trial(5, 10)]],
        [[Trial(5, 10)], []],
        [[Trial(5, 10)], [Trial(11, 10)]],
        [[Trial(5, 10)], [Trial(0, 0)]],
        [[Trial(5, 10)]] * 51,
    ],
)
def test_groups_that_cannot_be_are_refused(groups):
    with pytest.raises(OutOfRange):
        compare_groups(groups)
