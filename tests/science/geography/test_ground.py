"""Lengths and areas on the ground."""

import pytest

from hub.science.geography.ground import area_of, distance_between
from hub.science.quantity import Unit
from hub.words import Refused
from tests.science.geography.mapping import Ground, at, degrees_box


def test_the_way_is_in_km_and_the_same_both_ways():
    there = distance_between(at(47.5, -28), at(47.9, -27.5))
    assert there.unit is Unit.KILOMETRES
    assert there.value == pytest.approx(distance_between(at(47.9, -27.5), at(47.5, -28)).value)
    assert distance_between(at(47.5, -28), at(47.5, -28)).value == 0


@pytest.mark.parametrize("latitude", [0, 45, -70, 89])
def test_a_box_of_ten_by_twenty_km_has_two_hundred_square_km_everywhere(latitude):
    figure = area_of(Ground(latitude, 30).box(-5, -10, 5, 10))
    assert figure.value == pytest.approx(200, rel=1e-4)
    assert figure.unit is Unit.SQUARE_KILOMETRES


def test_holes_are_left_out_and_parts_added():
    whole, hole, part = degrees_box(0, 0, 4, 4), degrees_box(1, 1, 2, 2), degrees_box(10, 0, 11, 1)
    pierced = {"type": "Polygon", "coordinates": [*whole["coordinates"], *hole["coordinates"]]}
    parts = {"type": "MultiPolygon", "coordinates": [pierced["coordinates"], part["coordinates"]]}
    expected = area_of(whole).value - area_of(hole).value
    assert area_of(pierced).value == pytest.approx(expected, rel=1e-9)
    assert area_of(parts).value == pytest.approx(expected + area_of(part).value, rel=1e-9)


def test_the_direction_of_a_ring_does_not_matter():
    box = degrees_box(0, 0, 1, 1)
    turned = {"type": "Polygon", "coordinates": [box["coordinates"][0][::-1]]}
    assert area_of(turned).value == area_of(box).value > 0


def test_a_line_is_refused():
    with pytest.raises(Refused, match="Polygon"):
        area_of({"type": "LineString", "coordinates": [[0, 0], [1, 1]]})
