"""Who may have a place how exactly: the steps of the published categories, and never a blank."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as some

from hub.science.distance import Position, distance_m
from hub.science.localities import GeneralisedPlace, Sensitivity, Withheld
from hub.sites.localities import cells, is_guarded, public_place, sensitivity_at, sensitivity_of
from hub.sites.models import Population, Site
from hub.taxa.rules import CareClass


@dataclass(frozen=True)
class Plant:
    """All that a locality asks of a taxon."""

    care_class: CareClass
    sensitivity: int | None = None


PLANTS = some.builds(Plant, some.sampled_from(CareClass), some.none() | some.integers(1, 4))
PLACES = some.builds(
    lambda latitude, longitude, metres: Population(
        latitude=latitude, longitude=longitude, uncertainty_m=metres
    ),
    some.floats(-80, 80),
    some.floats(-170, 170),
    some.floats(0, 5000),
)


@pytest.mark.parametrize(
    ("care", "category"),
    [
        (CareClass.SECURE, Sensitivity.LOW),
        (CareClass.WATCH, Sensitivity.MEDIUM),
        (CareClass.RARE, Sensitivity.HIGH),
        (CareClass.UNKNOWN, Sensitivity.HIGH),
        (CareClass.CRITICAL, Sensitivity.EXTREME),
        (CareClass.GONE, Sensitivity.EXTREME),
    ],
)
def test_care_decides_until_a_curator_does(care: CareClass, category: Sensitivity) -> None:
    # Our own default: no published crosswalk from rarity to sensitivity exists.
    assert sensitivity_of(Plant(care)) is category
    assert sensitivity_of(Plant(care, 3)) is Sensitivity.MEDIUM


@given(some.lists(PLANTS, min_size=1))
def test_a_site_is_as_sensitive_as_the_worst_that_grows_there(plants: list[Plant]) -> None:
    assert all(sensitivity_at(plants) <= sensitivity_of(plant) for plant in plants)


def test_where_nothing_is_noted_rare_plants_may_grow() -> None:
    assert sensitivity_at([]) is Sensitivity.HIGH
    assert is_guarded([])


@given(PLACES, PLANTS)
def test_a_place_is_rounded_to_its_step_or_withheld(place: Population, plant: Plant) -> None:
    # Steps 0.1°, 0.01° and 0.001°: Chapman (2020), Current Best Practices for Generalizing Sensitive
    # Species Occurrence Data, table 7; category 1 is not released.
    public = public_place(place, [plant])
    if sensitivity_of(plant) is Sensitivity.EXTREME:
        assert isinstance(public, Withheld)
        return
    assert isinstance(public, GeneralisedPlace)
    step = {2: Decimal("0.1"), 3: Decimal("0.01"), 4: Decimal("0.001")}[sensitivity_of(plant)]
    assert public.step_deg == step
    assert public.latitude % step == public.longitude % step == 0
    true = Position(latitude=place.latitude, longitude=place.longitude)
    shown = Position(latitude=float(public.latitude), longitude=float(public.longitude))
    assert distance_m(true, shown) <= public.uncertainty_m


@given(PLACES, PLANTS)
def test_no_cell_is_ever_blank(place: Population, plant: Plant) -> None:
    found = cells(public_place(place, [plant]))
    assert len(found) == 4
    assert all(str(cell).strip() for cell in found)


def test_a_sites_own_reach_counts_into_its_uncertainty() -> None:
    small, large = (Site(latitude=47.8, longitude=-28.2, radius_m=metres) for metres in (10, 3000))
    plants = [Plant(CareClass.WATCH)]
    first, second = public_place(small, plants), public_place(large, plants)
    assert isinstance(first, GeneralisedPlace)
    assert isinstance(second, GeneralisedPlace)
    assert second.uncertainty_m - first.uncertainty_m == 2990


@pytest.mark.parametrize("care", CareClass)
def test_reading_is_noted_for_all_but_the_secure(care: CareClass) -> None:
    assert is_guarded([Plant(CareClass.SECURE), Plant(care)]) is (care is not CareClass.SECURE)
