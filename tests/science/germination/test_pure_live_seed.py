"""Pure live seed: bounds, dormant seed, and weights that hold what is wanted."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.science.germination.pure_live_seed import bulk_to_weigh, pure_live_seed
from hub.science.proportions import Trial
from hub.science.quantity import OutOfRange
from hub.words import Refused

shares = st.floats(0, 1)


@given(shares, st.integers(0, 100), st.data())
def test_dormant_seed_that_lives_counts_like_seed_that_came_up(purity, good, data):
    dormant = data.draw(st.integers(0, 100 - good))
    with_dormant = pure_live_seed(purity, Trial(good, 100), dormant_confirmed=dormant)
    assert with_dormant == pure_live_seed(purity, Trial(good + dormant, 100))
    assert 0 <= with_dormant.low <= with_dormant.value <= with_dormant.high <= purity


@given(st.floats(0.01, 1), st.integers(1, 100), st.floats(0, 10_000))
def test_the_bulk_holds_what_was_wanted(purity, good, wanted):
    share = pure_live_seed(purity, Trial(good, 100))
    bulk = bulk_to_weigh(wanted, share)
    assert bulk.value * share.value == pytest.approx(wanted)
    assert wanted <= bulk.low * (1 + 1e-12) <= bulk.value * (1 + 1e-12) <= bulk.high * (1 + 2e-12)


def test_no_weight_of_dead_seed_is_enough():
    with pytest.raises(Refused, match="Nothing in this lot"):
        bulk_to_weigh(10, pure_live_seed(0.9, Trial(0, 100)))


@pytest.mark.parametrize(
    "call",
    [
        lambda: pure_live_seed(1.01, Trial(5, 10)),
        lambda: pure_live_seed(float("nan"), Trial(5, 10)),
        lambda: pure_live_seed(0.9, Trial(5, 10), dormant_confirmed=6),
        lambda: pure_live_seed(0.9, Trial(5, 10), dormant_confirmed=-1),
        lambda: pure_live_seed(0.9, Trial(11, 10)),
        lambda: bulk_to_weigh(-1, pure_live_seed(0.9, Trial(5, 10))),
    ],
)
def test_shares_that_cannot_be_are_refused(call):
    with pytest.raises(OutOfRange):
        call()
