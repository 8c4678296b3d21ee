"""Where the viability equation holds, and what is said at its edges."""

import math

import pytest

from hub.science.longevity.store import Behaviour, Store
from hub.science.quantity import OutOfRange
from hub.words import Refused


def store(moisture=8.0, celsius=5.0, behaviour=Behaviour.ORTHODOX, critical=None):
    return Store(
        moisture_percent=moisture, temperature_c=celsius, behaviour=behaviour, critical_percent=critical
    )


@pytest.mark.parametrize("behaviour", [Behaviour.RECALCITRANT, Behaviour.INTERMEDIATE])
def test_seed_that_cannot_be_dried_is_refused(behaviour):
    with pytest.raises(Refused, match="harms"):
        store(behaviour=behaviour)


@pytest.mark.parametrize(
    ("moisture", "celsius", "critical"),
    [
        (15.1, 5, None),
        (-0.1, 5, None),
        (math.nan, 5, None),
        (8, -40.1, None),
        (8, 90.1, None),
        (8, math.inf, None),
        (8, 5, 1.9),
        (8, 5, 15.1),
    ],
)
def test_stores_beyond_every_experiment_are_refused(moisture, celsius, critical):
    with pytest.raises(OutOfRange):
        store(moisture, celsius, critical=critical)


@pytest.mark.parametrize(
    ("moisture", "critical", "counted"), [(1, None, 2), (4, None, 4), (4, 4.8, 4.8), (8, 4.8, 8)]
)
def test_drying_gains_nothing_below_the_critical_moisture(moisture, critical, counted):
    assert store(moisture, critical=critical).counted_percent == counted


@pytest.mark.parametrize(
    ("given", "says"),
    [
        (store(1), "Below 2.0 %"),
        (store(4, critical=4.8), "Below 4.8 %"),
        (store(5), "too long"),
        (store(8, -18), "−13"),
        (store(behaviour=Behaviour.UNKNOWN), "bears drying"),
    ],
)
def test_the_edges_are_told(given, says):
    (warning,) = given.warnings
    assert says in str(warning)


def test_an_ordinary_store_needs_no_warning():
    assert store().warnings == store(5, critical=4.8).warnings == ()
