"""Rounded places against the table computed beside the guidance.

The grid is that of Chapman (2020), Current Best Practices for Generalizing Sensitive Species
Occurrence Data, doi 10.15468/doc-5jp4-5g10; the radii come from geodesics on WGS84.
"""

from __future__ import annotations

import pytest

from hub.science.localities import GeneralisedPlace, Sensitivity, generalise
from tests.outside.reference import reference_rows


def test_every_place_of_the_table_is_rounded_as_it_says() -> None:
    rows = reference_rows("examples/generalization_tests.csv")
    assert len(rows) == 18
    for row in rows:
        place = generalise(
            float(row["lat_in"]),
            float(row["lon_in"]),
            float(row["uncertainty_in_m"]),
            Sensitivity(int(row["category"])),
        )
        assert isinstance(place, GeneralisedPlace)
        printed = (str(place.latitude), str(place.longitude), str(place.uncertainty_m), str(place.step_deg))
        assert printed == (row["lat_out"], row["lon_out"], row["uncertainty_out_m"], row["step_deg"])


# Half-diagonals of squares in whole metres by latitude, for steps of 0.001, 0.01, 0.1 and 1 degree (WGS84).
HALF_DIAGONALS = [
    (0, (79, 785, 7846, 78452)),
    (30, (74, 735, 7349, 73559)),
    (45, (69, 682, 6815, 68228)),
    (52, (66, 654, 6539, 65477)),
    (60, (63, 624, 6232, 62395)),
]


@pytest.mark.parametrize(("latitude", "radii"), HALF_DIAGONALS)
def test_stated_radius_is_the_half_diagonal_of_the_square(latitude: int, radii: tuple[int, ...]) -> None:
    finest_first = (Sensitivity.LOW, Sensitivity.MEDIUM, Sensitivity.HIGH, Sensitivity.EXTREME)
    for category, radius in zip(finest_first, radii, strict=True):
        place = generalise(latitude, 10.0, 0, category, square_if_extreme=True)
        assert isinstance(place, GeneralisedPlace)
        assert abs(place.uncertainty_m - radius) <= 1
