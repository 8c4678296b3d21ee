"""Desiccants and salts."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.science.moisture.desiccant import CAPACITY, Desiccant, desiccant_needed, water_to_remove
from hub.science.moisture.salts import CONSTANTS, Salt, check_hygrometer, humidity_over
from hub.science.quantity import OutOfRange


@given(st.floats(1, 1e4), st.floats(5, 40), st.floats(0, 5), st.sampled_from(Desiccant), st.floats(1, 10))
def test_the_desiccant_can_hold_the_water(weight, moisture, wanted, kind, safety):
    needed = desiccant_needed(weight, moisture, wanted, kind, safety=safety)
    held = needed.value * CAPACITY[kind][0]
    assert held == pytest.approx(safety * water_to_remove(weight, moisture, wanted).value)
    assert "freshly dried" in str(needed.warnings[0])


def test_dry_seed_needs_none():
    assert desiccant_needed(100, 5, 5, Desiccant.BEADS).value == 0


@pytest.mark.parametrize(("safety", "wanted"), [(0.9, 5), (11, 5), (1, 13)])
def test_nonsense_is_refused(safety, wanted):
    with pytest.raises(OutOfRange):
        desiccant_needed(100, 12, wanted, Desiccant.BEADS, safety=safety)


@pytest.mark.parametrize("salt", Salt)
def test_a_true_reading_agrees_and_a_false_one_does_not(salt):
    truth = humidity_over(salt, 21).value
    assert check_hygrometer(salt, 21, truth).agrees
    assert check_hygrometer(salt, 21, truth - 2.9).off_by.value == pytest.approx(-2.9)
    assert not check_hygrometer(salt, 21, truth - 3.1).agrees


def test_salts_lie_in_order_and_within_limits():
    humidities = [humidity_over(salt, 25).value for salt in CONSTANTS]
    assert humidities == sorted(humidities)
    for celsius, reading in ((9, 50), (41, 50), (20, -1), (20, 101)):
        with pytest.raises(OutOfRange):
            check_hygrometer(Salt.SODIUM_CHLORIDE, celsius, reading)
