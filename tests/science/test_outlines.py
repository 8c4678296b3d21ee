"""Outlines: GeoJSON as RFC 7946 has it (§3.1.6 on rings, §4 on WGS 84), refused in a sentence otherwise."""

from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import shape

from hub.science.outlines import positions, read_outline, signed_area
from hub.words import Refused

SQUARE = [[0, 0], [1, 0], [1, 1], [0, 1], [0, 0]]
HOLE = [[0.2, 0.2], [0.4, 0.2], [0.4, 0.4], [0.2, 0.4], [0.2, 0.2]]
BOW_TIE = [[0, 0], [1, 1], [1, 0], [0, 1], [0, 0]]


def polygon(*rings):
    return {"type": "Polygon", "coordinates": list(rings)}


def refusal_of(given):
    with pytest.raises(Refused) as refused:
        read_outline(given)
    return str(refused.value)


def test_a_polygon_stays_as_it_is():
    assert read_outline(polygon(SQUARE))["coordinates"] == [[[float(x), float(y)] for x, y in SQUARE]]


def test_rings_are_turned_by_the_right_hand_rule():
    outer, hole = read_outline(polygon(SQUARE[::-1], HOLE))["coordinates"]
    assert signed_area(outer) > 0 > signed_area(hole)


def test_a_feature_stands_for_its_geometry_and_heights_are_dropped():
    raised = [[*corner, 120.5] for corner in SQUARE]
    feature = {"type": "Feature", "properties": {}, "geometry": polygon(raised)}
    assert read_outline(feature) == read_outline(polygon(SQUARE))


def test_several_polygons_stay_several():
    far = [[x + 5, y] for x, y in SQUARE]
    read = read_outline({"type": "MultiPolygon", "coordinates": [[SQUARE], [far[::-1]]]})
    assert [signed_area(rings[0]) > 0 for rings in read["coordinates"]] == [True, True]


@pytest.mark.parametrize(
    "named", ["urn:ogc:def:crs:OGC:1.3:CRS84", "EPSG:4326", "urn:ogc:def:crs:EPSG::4326"]
)
def test_the_older_way_to_name_wgs_84_is_taken(named):
    assert read_outline({**polygon(SQUARE), "crs": {"type": "name", "properties": {"name": named}}})


@pytest.mark.parametrize(
    ("given", "says"),
    [
        (None, "GeoJSON geometry"),
        ([], "GeoJSON geometry"),
        ({"type": "Point", "coordinates": [0, 0]}, "Polygon or a MultiPolygon"),
        ({"type": ["Polygon"], "coordinates": []}, "Polygon or a MultiPolygon"),
        ({"type": "Feature", "geometry": None}, "Polygon or a MultiPolygon"),
        (polygon(), "empty"),
        ({"type": "MultiPolygon", "coordinates": []}, "empty"),
        ({"type": "Polygon"}, "nested"),
        (polygon([[0, 0], [1, 1], [0, 0]]), "three corners"),
        (polygon(SQUARE[:-1]), "end where it began"),
        (polygon([["0", 0], *SQUARE[1:]]), "plain numbers"),
        (polygon([[float("nan"), 0], *SQUARE[1:]]), "plain numbers"),
        (polygon([[10**400, 0], *SQUARE[1:]]), "plain numbers"),
        (polygon([[True, 0], *SQUARE[1:]]), "plain numbers"),
        (polygon(["ab", *SQUARE[1:]]), "longitude and a latitude"),
        (polygon([[430000, 210000], *SQUARE[1:]]), "WGS 84"),
        (polygon(BOW_TIE), "crosses or touches itself"),
        (polygon(SQUARE, [[x + 3, y] for x, y in HOLE]), "crosses or touches itself"),
        ({**polygon(SQUARE), "crs": {"properties": {"name": "EPSG:3857"}}}, "Only WGS 84"),
        (polygon([[0, 0]] * 50_001), "Please simplify"),
    ],
)
def test_anything_else_is_refused(given, says):
    assert says in refusal_of(given)


JSON = st.recursive(
    st.none() | st.booleans() | st.floats() | st.integers() | st.text(max_size=5),
    lambda inner: st.lists(inner, max_size=5) | st.dictionaries(st.text(max_size=5), inner, max_size=3),
    max_leaves=30,
)


@given(JSON)
def test_no_json_breaks_the_reader(coordinates):
    for kind in ("Polygon", "MultiPolygon"):
        try:
            read = read_outline({"type": kind, "coordinates": coordinates})
        except Refused:
            continue
        assert shape(read).is_valid


@given(st.floats(-179, 179), st.floats(-89, 89), st.booleans())
def test_reading_twice_changes_nothing(west, south, turned):
    ring = [[west, south], [west + 1, south], [west + 1, south + 1], [west, south + 1], [west, south]]
    once = read_outline(polygon(ring[::-1] if turned else ring))
    assert read_outline(json.loads(json.dumps(once))) == once


def test_positions_are_found_at_any_depth():
    assert set(positions(polygon(SQUARE))) == {(0, 0), (1, 0), (1, 1), (0, 1)}
    assert list(positions({"type": "Point", "coordinates": [3, 4]})) == [(3.0, 4.0)]
