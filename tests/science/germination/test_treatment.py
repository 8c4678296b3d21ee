"""A treatment over lots: its odds, its mirror, and effects that differ."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.science.germination.treatment import TreatedLot, treatment_effect
from hub.science.proportions import Trial
from hub.science.quantity import OutOfRange
from hub.words import Refused

goods = st.integers(1, 49)


def lot(without, treated, seeds=50):
    return TreatedLot([Trial(without, seeds)], [Trial(treated, seeds)])


@given(goods, goods)
def test_one_lot_gives_the_odds_of_its_own_table(without, treated):
    found = treatment_effect([lot(without, treated)])
    assert found.odds.value == pytest.approx(treated * (50 - without) / (without * (50 - treated)))
    assert found.odds.low <= found.odds.value <= found.odds.high
    assert found.chance_alike is None


@given(st.lists(st.tuples(goods, goods), min_size=1, max_size=5))
def test_leaving_the_treatment_off_undoes_it(pairs):
    there = treatment_effect([lot(*pair) for pair in pairs]).odds
    back = treatment_effect([lot(treated, without) for without, treated in pairs]).odds
    assert there.value * back.value == pytest.approx(1)
    assert there.low * back.high == pytest.approx(1)


def test_a_treatment_that_helps_one_lot_and_harms_another_is_told():
    assert treatment_effect([lot(10, 40), lot(40, 10)]).chance_alike.value < 0.001
    assert treatment_effect([lot(10, 20), lot(20, 31)]).chance_alike.value > 0.5


def test_scatter_widens_the_interval_and_excuses_differences():
    even = [
        TreatedLot([Trial(20, 50)] * 2, [Trial(30, 50)] * 2),
        TreatedLot([Trial(15, 50)] * 2, [Trial(35, 50)] * 2),
    ]
    ragged = [
        TreatedLot([Trial(5, 50), Trial(35, 50)], [Trial(15, 50), Trial(45, 50)]),
        TreatedLot([Trial(2, 50), Trial(28, 50)], [Trial(25, 50), Trial(45, 50)]),
    ]
    sure, unsure = treatment_effect(even), treatment_effect(ragged)
    assert unsure.odds.value == pytest.approx(sure.odds.value)
    assert unsure.odds.low < sure.odds.low < sure.odds.high < unsure.odds.high
    assert unsure.chance_alike.value > sure.chance_alike.value


def test_the_interval_holds_the_odds_about_as_often_as_it_says():
    rng = np.random.default_rng(8)
    held = 0
    for _ in range(500):
        lots = [lot(*map(int, rng.binomial(50, (low, 2 * low / (1 + low))))) for low in (0.3, 0.4, 0.5)]
        odds = treatment_effect(lots).odds
        held += odds.low <= 2 <= odds.high  # p to 2 p / (1 + p) doubles the odds
    assert 455 <= held <= 493


def test_all_or_nothing_has_no_odds():
    with pytest.raises(Refused, match="all or nothing"):
        treatment_effect([lot(0, 40)])


def test_replicates_that_scatter_wildly_have_no_odds():
    wild = TreatedLot([Trial(1, 50), Trial(49, 50)], [Trial(30, 50)])
    with pytest.raises(Refused, match="differ too much"):
        treatment_effect([wild])


@pytest.mark.parametrize("lots", [[], [lot(5, 51)], [TreatedLot([], [Trial(5, 10)])], [lot(5, 6)] * 51])
def test_lots_that_cannot_be_are_refused(lots):
    with pytest.raises(OutOfRange):
        treatment_effect(lots)
