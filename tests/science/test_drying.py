"""Moisture and drying weights: round trips and what cannot be."""

from random import Random
from statistics import stdev

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.science.drying import (
    dry_basis_from_fresh,
    fresh_basis_from_dry,
    moisture_after_drying,
    moisture_from_oven,
    moisture_in_two_stages,
    target_weight,
)
from hub.science.quantity import OutOfRange

moistures = st.floats(0, 95)
weights = st.floats(0.01, 10_000)


@given(weights, moistures, st.floats(0, 1))
def test_drying_to_the_target_weight_reaches_the_wanted_moisture(weight, moisture, part):
    wanted = moisture * part
    target = target_weight(weight, moisture, wanted).value
    assert target <= weight * (1 + 1e-12)
    now = min(target, weight)
    assert moisture_after_drying(moisture, weight, now).value == pytest.approx(wanted, abs=1e-6)


@given(moistures)
def test_fresh_and_dry_basis_undo_each_other(moisture):
    assert fresh_basis_from_dry(dry_basis_from_fresh(moisture)) == pytest.approx(moisture)


@given(weights, weights, st.floats(0, 1), st.floats(0, 0.1))
def test_the_interval_holds_the_moisture(container, fresh, wet, step):
    before = container + fresh
    after = min(max(before - wet * fresh, container), before)
    figure = moisture_from_oven(container, before, after, balance_step_g=min(step, before - container))
    assert 0 <= figure.low <= figure.value <= figure.high <= 100


def test_a_coarser_balance_is_less_sure():
    fine = moisture_from_oven(20, 25, 24.6, balance_step_g=0.001)
    coarse = moisture_from_oven(20, 25, 24.6, balance_step_g=0.1)
    assert coarse.low < fine.low < fine.value < fine.high < coarse.high
    assert moisture_from_oven(20, 25, 24.6).standard_error == 0


def test_the_interval_is_that_of_three_roundings():
    lots = Random(3)  # noqa: S311 - a simulation that can be run again

    def rounded(weight):
        return weight + lots.uniform(-0.05, 0.05)

    simulated = []
    for _ in range(20_000):
        empty, full, dry = rounded(20), rounded(25), rounded(23)
        simulated.append(100 * (full - dry) / (full - empty))
    figure = moisture_from_oven(20, 25, 23, balance_step_g=0.1)
    assert figure.value == pytest.approx(40)
    assert figure.standard_error == pytest.approx(stdev(simulated), rel=0.03)


@given(moistures, moistures)
def test_two_stages_lose_more_than_either_and_less_than_both(first, second):
    moisture = moisture_in_two_stages(first, second).value
    assert max(first, second) - 1e-9 <= moisture <= first + second + 1e-9


@pytest.mark.parametrize(
    "call",
    [
        lambda: target_weight(100, 5, 12),
        lambda: target_weight(0, 12, 5),
        lambda: target_weight(100, 96, 5),
        lambda: moisture_after_drying(12, 100, 101),
        lambda: moisture_after_drying(12, 100, 80),
        lambda: moisture_from_oven(20, 20, 20),
        lambda: moisture_from_oven(20, 25, 26),
        lambda: moisture_from_oven(20, 25, 19),
        lambda: moisture_from_oven(20, float("nan"), 19),
        lambda: fresh_basis_from_dry(-1),
    ],
)
def test_seed_does_not_gain_weight_by_drying_or_lose_more_than_its_water(call):
    with pytest.raises(OutOfRange):
        call()
