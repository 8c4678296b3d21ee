"""Moisture in air, desiccants and salts against published and computed figures, each with its source."""

import math

import pytest

from hub.science.drying import fresh_basis_from_dry
from hub.science.moisture.desiccant import Desiccant, desiccant_needed, water_to_remove
from hub.science.moisture.isotherm import moisture_in_air
from hub.science.moisture.salts import Salt, humidity_over


# Published: chickpea comes to 6 % at 15 % humidity and 15 °C; its oil, 5 to 6 %, is from memory.
@pytest.mark.parametrize("oil", [0.05, 0.06])
def test_chickpea(oil):
    assert moisture_in_air(15, 15, oil).value == pytest.approx(6, abs=0.1)


# Computed from the published formula.
@pytest.mark.parametrize(
    ("humidity", "celsius", "oil", "percent"),
    [
        (15, 15, 0, 6.2582), (15, 15, 0.02, 6.1407), (15, 15, 0.2, 5.0700), (15, 15, 0.4, 3.8513),
        (15, 20, 0.02, 5.8979), (50, 20, 0.02, 11.4604), (10.6, 20, 0.02, 4.9467),
    ],
)  # fmt: skip
def test_the_formula(humidity, celsius, oil, percent):
    assert moisture_in_air(humidity, celsius, oil).value == pytest.approx(percent, abs=5.1e-5)


# Another published equation (modified Henderson, constants of ASAE D245 for maize) as a second opinion.
@pytest.mark.parametrize(("humidity", "apart"), [(15, 0.25), (30, 0.25), (50, 0.25), (70, 0.6)])
def test_maize_by_another_equation(humidity, apart):
    henderson = (-math.log1p(-humidity / 100) / (8.6541e-5 * (25 + 49.81))) ** (1 / 1.8634)
    assert moisture_in_air(humidity, 25, 0.045).value == pytest.approx(
        fresh_basis_from_dry(henderson), abs=apart
    )


# From memory: tables of equilibrium moisture at 25 °C after Harrington; starchy seed within 0.7 points.
@pytest.mark.parametrize(("humidity", "percent"), [(15, 6.0), (30, 8.4), (45, 10.0), (60, 12.1), (75, 14.4)])
def test_barley(humidity, percent):
    assert moisture_in_air(humidity, 25, 0.02).value == pytest.approx(percent, abs=0.7)


# Computed: 100 g from 12 to 5 % give off 7.368 g of water. The capacity of 8 % is from memory, that of
# 13.4 % published (one home measurement).
def test_desiccant_for_a_hundred_grams():
    assert water_to_remove(100, 12, 5).value == pytest.approx(7.368, abs=5e-4)
    assert desiccant_needed(100, 12, 5, Desiccant.GEL_TO_15_RH).value == pytest.approx(92, abs=0.5)
    assert desiccant_needed(100, 12, 5, Desiccant.GEL_TO_25_RH).value == pytest.approx(55, abs=0.5)


# Published: Wexler in the CRC Handbook; rounded they are the figures of every textbook (11, 33, 75, 97 %).
@pytest.mark.parametrize(
    ("salt", "percent"),
    [
        (Salt.LITHIUM_CHLORIDE, 11.30),
        (Salt.MAGNESIUM_CHLORIDE, 32.79),
        (Salt.SODIUM_CHLORIDE, 75.25),
        (Salt.POTASSIUM_SULFATE, 97.23),
    ],
)
def test_saturated_salts(salt, percent):
    assert humidity_over(salt, 25).value == pytest.approx(percent, abs=5.1e-3)
