"""Seeds counted by weight: scale, direction and what is refused."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.science.counts import (
    Weighing,
    counted_seeds,
    seeds_by_weight,
    thousand_seed_weight,
    without_strays,
)
from hub.science.quantity import OutOfRange
from hub.words import Refused

weighings = st.lists(st.floats(0.95, 1.05), min_size=4, max_size=16).map(lambda w: Weighing(tuple(w)))


@given(weighings, st.floats(0, 5000), st.floats(0, 1))
def test_the_interval_holds_the_count_and_reaches_further_up(weighing, grams, purity):
    figure = seeds_by_weight(weighing, grams, purity=purity)
    assert 0 <= figure.low <= figure.value <= figure.high
    assert figure.high - figure.value >= figure.value - figure.low - 1e-9


@given(weighings, st.floats(1, 100))
def test_the_unit_of_weight_does_not_matter(weighing, times):
    scaled = Weighing(tuple(times * weight for weight in weighing.weights_g))
    assert seeds_by_weight(scaled, 50 * times).value == pytest.approx(seeds_by_weight(weighing, 50).value)
    assert scaled.variation_percent == pytest.approx(weighing.variation_percent, abs=1e-6)


@given(weighings)
def test_a_thousand_seeds_weigh_what_the_count_says(weighing):
    thousand = thousand_seed_weight(weighing)
    assert seeds_by_weight(weighing, thousand.value).value == pytest.approx(1000)
    assert thousand.low <= thousand.value <= thousand.high


def test_a_coarse_balance_widens_the_interval():
    coarse, fine = Weighing((1.0,) * 8, balance_step_g=0.1), Weighing((1.0,) * 8)
    assert fine.variation_percent == 0
    assert coarse.variation_percent == pytest.approx(10 / 12**0.5)
    assert seeds_by_weight(coarse, 100).low < seeds_by_weight(fine, 100).low == 10_000


def test_uneven_replicates_are_said_and_chaffy_seed_may_vary_more():
    uneven = Weighing((1.0, 1.1, 1.0, 1.1, 1.0, 1.1, 1.0, 1.1))
    assert 4 < uneven.variation_percent < 6
    assert "Weigh eight more" in str(seeds_by_weight(uneven, 100).warnings[0])
    assert seeds_by_weight(uneven, 100, chaffy=True).warnings == ()


def test_a_small_lot_is_better_counted():
    assert "seed by seed" in str(seeds_by_weight(Weighing((1.0, 1.0)), 7.99).warnings[0])
    assert seeds_by_weight(Weighing((1.0, 1.0)), 8).warnings == ()
    assert counted_seeds(87).low == counted_seeds(87).high == 87


def test_strays_beyond_two_deviations_are_left_out():
    weights = (1.0, 1.01, 0.99, 1.0, 1.02, 0.98, 1.0, 1.0, 1.5)
    assert without_strays(weights) == weights[:-1]
    assert without_strays((1.0, 1.0)) == (1.0, 1.0)


def test_weights_too_unlike_to_reckon_with_are_refused():
    with pytest.raises(Refused, match="differ too much"):
        seeds_by_weight(Weighing((1.0, 3.0)), 100)


@pytest.mark.parametrize(
    "weights", [(), (1.0,), (1.0, 0.0), (1.0, -1.0), (1.0, float("nan")), (1.0, float("inf"))]
)
def test_what_is_no_weighing_is_refused(weights):
    with pytest.raises(OutOfRange):
        Weighing(weights)
    with pytest.raises(OutOfRange):
        without_strays(weights)
