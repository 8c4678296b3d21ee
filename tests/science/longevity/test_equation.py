"""The viability equation: drier and colder is longer, its questions undo each other, and what it refuses."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.science.longevity.constants import CONSTANTS
from hub.science.longevity.equation import (
    Mark,
    days_per_probit,
    probits_to_fall,
    time_to,
    viability_after,
)
from hub.science.longevity.store import Behaviour, Store
from hub.science.quantity import Evidence, OutOfRange
from hub.words import Refused

species = st.sampled_from(sorted(CONSTANTS)).map(CONSTANTS.__getitem__)
moistures = st.floats(2, 15)
temperatures = st.floats(-26, 90)
shares = st.floats(0.01, 0.99)
CHICKPEA = CONSTANTS["Cicer arietinum"]


def store(moisture, celsius):
    return Store(moisture_percent=moisture, temperature_c=celsius, behaviour=Behaviour.ORTHODOX)


@given(species, moistures, moistures, temperatures, temperatures)
def test_drier_and_colder_never_shortens_life(constants, moisture, other, celsius, colder):
    wet, dry = max(moisture, other), min(moisture, other)
    warm, cold = max(celsius, colder), min(celsius, colder)
    worse, better = (days_per_probit(constants, store(*each)) for each in ((wet, warm), (dry, cold)))
    assert worse.value <= better.value * (1 + 1e-9)
    assert 0 < worse.low < worse.value < worse.high


@given(species, moistures, temperatures, shares, st.floats(0.05, 1))
def test_after_the_time_to_a_share_that_share_is_alive(constants, moisture, celsius, initial, part):
    wanted = max(initial * part, 0.001)
    kept = store(moisture, celsius)
    years = time_to(constants, kept, initial, wanted, Mark.OF_ALL).value
    if years * 365.25 < 1e6:
        alive = viability_after(constants, kept, initial, years * 365.25)
        assert alive.value == pytest.approx(wanted, rel=1e-6)
        assert 0 <= alive.low <= alive.value <= alive.high <= initial + 1e-12


@given(shares, shares)
def test_a_share_of_the_initial_is_a_lower_mark_than_that_share_of_all(initial, wanted):
    fall = probits_to_fall(initial, wanted, Mark.OF_INITIAL)
    assert fall >= 0
    if wanted <= initial:
        assert fall >= probits_to_fall(initial, wanted, Mark.OF_ALL)


def test_viability_below_the_mark_has_no_time_left():
    with pytest.raises(Refused, match="already"):
        time_to(CHICKPEA, store(8, 5), 0.80, 0.85, Mark.OF_ALL)
    assert time_to(CHICKPEA, store(8, 5), 0.80, 0.85, Mark.OF_INITIAL).value > 0


def test_the_interval_spans_orders_of_magnitude_and_says_so():
    figure = time_to(CHICKPEA, store(8, 5), 0.9, 0.5, Mark.OF_ALL, level=0.6827)
    assert figure.high / figure.value == pytest.approx(3.55, abs=0.01)  # 10^0.55
    assert "never a date" in str(figure.warnings[0])


def test_the_warnings_of_the_store_come_along():
    assert "too long" in str(days_per_probit(CHICKPEA, store(5, 5)).warnings[1])


@pytest.mark.parametrize("name", sorted(CONSTANTS))
def test_no_species_is_reckoned_where_its_equation_turns_over(name):
    constants = CONSTANTS[name]
    assert constants.turn_over_c < -20
    if constants.turn_over_c > -40:
        with pytest.raises(OutOfRange, match="temperature"):
            days_per_probit(constants, store(8, constants.turn_over_c - 0.1))


def test_only_the_twelve_crops_that_were_read_are_published():
    published = [each for each in CONSTANTS.values() if each.source.evidence is Evidence.PUBLISHED]
    assert len(published) == 12
    assert {(each.c_h, each.c_q) for each in published} == {(0.0322, 0.000454)}


@pytest.mark.parametrize(
    "call",
    [
        lambda: viability_after(CHICKPEA, store(8, 5), 1.0, 10),
        lambda: viability_after(CHICKPEA, store(8, 5), 0.9, -1),
        lambda: viability_after(CHICKPEA, store(8, 5), 0.9, float("inf")),
        lambda: time_to(CHICKPEA, store(8, 5), float("nan"), 0.5, Mark.OF_ALL),
        lambda: time_to(CHICKPEA, store(8, 5), 0.9, 0, Mark.OF_INITIAL),
        lambda: days_per_probit(CHICKPEA, store(8, 5), level=1),
    ],
)
def test_figures_beyond_reason_are_refused(call):
    with pytest.raises(OutOfRange):
        call()
