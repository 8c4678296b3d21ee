"""Geography against published figures and against shapes whose size is known; each row names its source."""

import json
from itertools import accumulate

import numpy as np
import pytest

from hub.science.geography.extent import extent_of_occurrence
from hub.science.geography.ground import area_of, distance_between
from hub.science.geography.occupancy import cells_touched, rescaled_occupancy
from hub.science.geography.plane import Plane
from hub.science.geography.reach import area_within_reach
from hub.science.geography.representativeness import representativeness
from tests.outside.reference import reference_file
from tests.science.geography.mapping import Ground, at, degrees_box

GROUND = Ground(45, 10)


# Published: GeographicLib's Python documentation, Wellington to Salamanca.
def test_wellington_to_salamanca():
    way = distance_between(at(-41.32, 174.81), at(40.96, -5.50))
    assert way.value == pytest.approx(19959.679267, abs=1e-6)


# Published: areas of states by the United States Census; the outlines are generalised to 1 : 10 million.
@pytest.mark.parametrize(("state", "km2"), [("Colorado", 269_601), ("Wyoming", 253_335), ("Kansas", 213_100)])
def test_areas_of_states(state, km2):
    atlas = json.loads(reference_file("us-atlas/states-10m.json").read_text("utf-8"))
    (outline,) = (
        _decoded(atlas, geometry)
        for geometry in atlas["objects"]["states"]["geometries"]
        if geometry["properties"]["name"] == state
    )
    assert area_of(outline).value == pytest.approx(km2, rel=3e-4)


def _decoded(atlas, geometry):
    """The polygon of a TopoJSON geometry: arcs are running sums of steps, those below 0 run backwards."""
    scale, shift = np.array(atlas["transform"]["scale"]), np.array(atlas["transform"]["translate"])
    (arcs,) = geometry["arcs"]
    corners = []
    for number in arcs:
        steps = atlas["arcs"][number if number >= 0 else ~number]
        arc = [tuple(corner) for corner in np.array(list(accumulate(map(np.array, steps)))) * scale + shift]
        corners += (arc if number >= 0 else arc[::-1])[bool(corners) :]
    return {"type": "Polygon", "coordinates": [[list(map(float, corner)) for corner in corners]]}


# Computed: pyproj’s geodesic area, and the box on the equal-area map EPSG:6933, where edges are straight.
def test_a_degree_by_a_degree_at_the_equator():
    hull = extent_of_occurrence([at(0, 0), at(0, 1), at(1, 0), at(1, 1), at(0.5, 0.5)])
    assert hull.area.value == pytest.approx(12_308.778, abs=5e-4)
    straight = degrees_box(0, 0, 1, 1)
    assert Plane(at(0.5, 0.5)).shape(straight).area == pytest.approx(12_308.464, rel=1e-6)


# Computed by hand: cells (0, 0), (1, 0), (1, 1), (2, 2), and three from a better origin.
def test_cells_of_six_records():
    records = np.array([(1, 1), (1.5, 1.9), (3, 1), (5, 5), (5.9, 5.1), (2, 2)])
    fixed, fewest = cells_touched(records, 2.0)
    assert (4 * fixed, 4 * fewest) == (16, 12)


# Published: IUCN guidelines, figure 4.4: one cell of 10 km is 25 cells of 2 km for C = 0, one for C = 1.
# The cells between are computed.
@pytest.mark.parametrize(("exponent", "cells"), [(0, 25), (0.32, 8.92), (0.5, 5), (0.66, 2.99), (1, 1)])
def test_one_coarse_cell_as_finer_cells(exponent, cells):
    assert rescaled_occupancy(100, from_cell_km=10, exponent=exponent).value / 4 == pytest.approx(
        cells, abs=5e-3
    )


# From memory: the guidelines' worked example prints 1,736 and 176 or 177 km².
@pytest.mark.parametrize(("exponent", "km2"), [(0.17, 1735.7), (0.88, 176.6)])
def test_three_thousand_square_km_on_finer_cells(exponent, km2):
    assert rescaled_occupancy(3000, from_cell_km=10, exponent=exponent).value == pytest.approx(km2, abs=0.05)


# Computed: a 360-gon by pyproj's geodesics; the plane's disc is pi 50² = 7853.98.
def test_a_disc_of_fifty_km():
    assert area_within_reach([at(45, 10)]).value == pytest.approx(7853.54, abs=0.01)


# Computed by the geometry of circles: two discs 60 km apart.
def test_two_discs_that_overlap():
    both = area_within_reach([GROUND.place(-30, 0), GROUND.place(30, 0)])
    assert both.value == pytest.approx(13_471.49, rel=1e-4)


# Scores published (Khoury et al. 2019); the case is computed: pi 50² over 200², four ecoregions, G 1, H 10.
def test_one_accession_in_the_middle_of_a_square():
    quarters = {f"{x} {y}": GROUND.box(x, y, x + 100, y + 100) for x in (-100, 0) for y in (-100, 0)}
    figure = representativeness(GROUND.box(-100, -100, 100, 100), quarters, [at(45, 10)], records=10)
    assert figure.sampling.value == 10
    assert figure.geographic.value == pytest.approx(19.63495, rel=1e-4)
    assert figure.ecological.value == 100
    assert figure.final.value == pytest.approx(43.2117, rel=1e-4)
