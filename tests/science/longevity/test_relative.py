"""Comparisons of stores: there and back, drier and cooler, and never a year."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.science.longevity.relative import (
    TURN_OVER_C,
    life_factor,
    moisture_factor,
    rule_of_thumb,
    temperature_factor,
)
from hub.science.longevity.store import Behaviour, Store
from hub.science.quantity import Evidence, OutOfRange, Unit

temperatures = st.floats(-34, 90)
moistures = st.floats(2, 15)


def store(moisture, celsius, behaviour=Behaviour.ORTHODOX):
    return Store(moisture_percent=moisture, temperature_c=celsius, behaviour=behaviour)


@given(temperatures, temperatures)
def test_there_and_back_cancel(one, other):
    there, back = temperature_factor(one, other).value, temperature_factor(other, one).value
    assert there * back == pytest.approx(1)
    assert max(there, back) == (there if other < one else back) or there == pytest.approx(1)


@given(moistures, moistures, temperatures, temperatures)
def test_both_together_multiply_and_turn_round(moisture, other, celsius, colder):
    one, two = store(moisture, celsius), store(other, colder)
    there, back = life_factor(one, two), life_factor(two, one)
    assert there.value == pytest.approx(
        temperature_factor(celsius, colder).value * moisture_factor(one, two).value
    )
    assert there.value * back.value == pytest.approx(1)
    assert there.low * back.high == pytest.approx(1)
    assert there.unit is Unit.TIMES
    assert there.source.evidence is Evidence.OWN


def test_drying_beyond_where_it_helps_gains_nothing():
    assert moisture_factor(store(2, 5), store(1, 5)).value == 1


def test_the_level_is_the_share_of_known_species_within_the_powers():
    assert moisture_factor(store(8, 5), store(4, 5)).level == 16 / 18


def test_each_warning_is_given_once():
    unknown = life_factor(store(8, 5, Behaviour.UNKNOWN), store(7, 5, Behaviour.UNKNOWN))
    assert len(unknown.warnings) == 1


@given(st.floats(5, 14), st.floats(5, 14), st.floats(0, 50), st.floats(0, 50))
def test_the_rule_of_thumb_points_the_same_way(moisture, other, celsius, colder):
    if other <= moisture and colder <= celsius:
        one, two = store(moisture, celsius), store(other, colder)
        assert rule_of_thumb(one, two).value >= 1
        assert life_factor(one, two).high >= 1


@pytest.mark.parametrize(
    "call",
    [
        lambda: temperature_factor(TURN_OVER_C - 0.1, 5),
        lambda: temperature_factor(5, float("nan")),
        lambda: life_factor(store(8, 5), store(8, -38)),
        lambda: rule_of_thumb(store(4, 5), store(8, 5)),
        lambda: rule_of_thumb(store(8, 5), store(8, -18)),
    ],
)
def test_comparisons_beyond_their_range_are_refused(call):
    with pytest.raises(OutOfRange):
        call()
