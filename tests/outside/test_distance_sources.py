"""Distances over the ellipsoid against published ones."""

import pytest

from hub.science.distance import Position, distance_m


# Published: GeographicLib documentation, Wellington to Salamanca.
def test_wellington_to_salamanca():
    wellington = Position(latitude=-41.32, longitude=174.81)
    salamanca = Position(latitude=40.96, longitude=-5.50)
    assert distance_m(wellington, salamanca) == pytest.approx(19_959_679.267, abs=0.001)


# Definition: a quarter of the WGS 84 meridian, 10,001,965.729 m (from memory).
def test_from_the_equator_to_the_pole():
    equator, pole = Position(latitude=0, longitude=0), Position(latitude=90, longitude=0)
    assert distance_m(equator, pole) == pytest.approx(10_001_965.729, abs=0.001)
