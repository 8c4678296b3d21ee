"""Moisture and humidity: each undoes the other, and both go the way that seed goes."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.science.moisture.isotherm import humidity_of_seed, moisture_in_air
from hub.science.quantity import OutOfRange

HUMIDITY, CELSIUS, OIL = st.floats(1, 94.9), st.floats(-30, 60), st.floats(0, 0.7)


@given(HUMIDITY, CELSIUS, OIL)
def test_the_seed_keeps_the_humidity_it_came_from(humidity, celsius, oil):
    moisture = moisture_in_air(humidity, celsius, oil).value
    assert humidity_of_seed(moisture, celsius, oil).value == pytest.approx(humidity, abs=1e-6)


@given(HUMIDITY, HUMIDITY, CELSIUS, OIL)
def test_damper_air_makes_damper_seed(one, other, celsius, oil):
    less, more = sorted((one, other))
    assert moisture_in_air(less, celsius, oil).value <= moisture_in_air(more, celsius, oil).value


@given(HUMIDITY, CELSIUS, CELSIUS, OIL, OIL)
def test_warm_air_and_oil_make_drier_seed(humidity, one, other, thin, rich):
    cold, warm = sorted((one, other))
    lean, oily = sorted((thin, rich))
    assert moisture_in_air(humidity, warm, lean).value <= moisture_in_air(humidity, cold, lean).value
    assert moisture_in_air(humidity, cold, oily).value <= moisture_in_air(humidity, cold, lean).value


def test_it_warns_outside_what_was_tested():
    assert len(moisture_in_air(50, 20, 0).warnings) == 1
    assert len(moisture_in_air(50, 35, 0).warnings) == 1
    assert "0.0 to 40.0 °C" in str(moisture_in_air(75, 20, 0).warnings[-1])
    assert "15.0 to 25.0 °C" in str(moisture_in_air(50, 35, 0.4).warnings[-1])
    assert "seed alone" in str(humidity_of_seed(5, 20, 0).warnings[0])


@pytest.mark.parametrize(
    ("humidity", "celsius", "oil"),
    [(0.5, 20, 0), (96, 20, 0), (50, 61, 0), (50, 20, 0.8), (float("nan"), 20, 0)],
)
def test_beyond_its_limits_it_refuses(humidity, celsius, oil):
    with pytest.raises(OutOfRange):
        moisture_in_air(humidity, celsius, oil)


def test_seed_too_wet_for_any_air_is_refused():
    with pytest.raises(OutOfRange, match="The moisture must be from 0 to"):
        humidity_of_seed(60, 20, 0)
