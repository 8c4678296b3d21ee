"""How well accessions represent a species, and what counts and does not."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.science.geography.representativeness import representativeness
from hub.science.quantity import OutOfRange, Unit
from hub.words import Refused
from tests.science.geography.mapping import Ground, at

GROUND = Ground(47.6, -28.2)
RANGE = GROUND.box(-100, -100, 100, 100)
WEST, EAST = GROUND.box(-150, -150, 0, 150), GROUND.box(0, -150, 150, 150)
BESIDE = GROUND.box(100, -100, 150, 100)
REGIONS = {"East": EAST, "West": WEST}
kilometres = st.floats(-99, 99)
within_range = st.lists(st.builds(GROUND.place, kilometres, kilometres), max_size=4)


def score(collected, records=10, regions=REGIONS, **others):
    return representativeness(RANGE, regions, collected, records=records, **others)


@given(within_range, st.builds(GROUND.place, kilometres, kilometres))
def test_another_accession_never_lowers_a_score(collected, another):
    less, more = score(collected), score([*collected, another])
    for name in ("sampling", "geographic", "ecological", "final"):
        lower, higher = getattr(less, name), getattr(more, name)
        assert 0 <= lower.value <= higher.value + 1e-6 <= 100 + 1e-5
        assert higher.unit is Unit.PERCENT


@given(within_range)
def test_the_final_score_is_the_mean_and_regions_are_reached_or_missed(collected):
    figure = score(collected)
    parts = (figure.sampling, figure.geographic, figure.ecological)
    assert figure.final.value == pytest.approx(sum(part.value for part in parts) / 3)
    assert sorted(figure.reached + figure.missed) == ["East", "West"]


def test_one_side_reached_names_the_other():
    figure = score([GROUND.place(-60, 0)])
    assert (figure.reached, figure.missed) == (("West",), ("East",))
    assert figure.ecological.value == 50
    assert not figure.comprehensive


def test_a_wide_reach_and_enough_accessions_are_comprehensive():
    figure = score([GROUND.place(0, 0)], records=1, reach_km=200)
    assert [part.value for part in (figure.sampling, figure.geographic, figure.ecological)] == [100] * 3
    assert figure.comprehensive


def test_nothing_collected_scores_nothing():
    figure = score([])
    assert figure.final.value == 0
    assert figure.missed == ("East", "West")


def test_an_unknown_place_counts_by_number_alone():
    figure = score([None, None])
    assert figure.sampling.value == 20
    assert figure.geographic.value == figure.ecological.value == 0


def test_outside_the_range_counts_nothing_and_is_told():
    figure = score([GROUND.place(110, 0), GROUND.place(0, 110)])
    assert figure.final.value == 0
    assert score([at(-47.6, 151.8)]).final.value == 0
    assert "2 accessions are from outside" in str(figure.final.warnings[0])


def test_no_known_record_gives_no_sampling_score():
    figure = score([GROUND.place(0, 0)], records=0)
    assert figure.sampling.value == 0
    assert "No record" in str(figure.final.warnings[0])


def test_a_region_that_only_touches_the_range_is_not_of_it():
    assert score([], regions={**REGIONS, "Beside": BESIDE}).missed == ("East", "West")
    with pytest.raises(Refused, match="No ecoregion"):
        score([], regions={"Beside": GROUND.box(120, -100, 150, 100)})
    with pytest.raises(Refused, match="No ecoregion"):
        score([], regions={})


def test_bad_figures_and_outlines_are_refused():
    with pytest.raises(OutOfRange):
        score([], records=-1)
    with pytest.raises(OutOfRange):
        score([], reach_km=math.nan)
    with pytest.raises(Refused, match="Polygon"):
        representativeness({"type": "Point", "coordinates": [0, 0]}, REGIONS, [], records=1)
