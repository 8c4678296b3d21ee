"""Near-duplicates: the same collection handed in twice, and neighbours that are not."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.science.distance import Position
from hub.science.quantity import OutOfRange
from hub.science.similarity import Collected, likeness

HERE = Position(latitude=51.0, longitude=7.0)
FIRST = Collected(
    day=date(2026, 8, 4),
    position=HERE,
    uncertainty_m=10,
    seeds=1530,
    seeds_by_mother=(120, 340, 75, 500, 210, 285),
)
collections = st.builds(
    Collected,
    day=st.dates(date(2026, 7, 1), date(2026, 7, 20)),
    position=st.none() | st.builds(Position, latitude=st.floats(50, 51), longitude=st.floats(7, 8)),
    uncertainty_m=st.floats(0, 500),
    seeds=st.none() | st.integers(0, 5000),
    seeds_by_mother=st.lists(st.integers(0, 400), max_size=8).map(tuple),
)


@given(collections)
def test_a_collection_is_wholly_like_itself(collected):
    answer = likeness(collected, collected)
    assert answer.score == 1


@given(collections, collections)
def test_likeness_is_the_same_from_either_side_and_between_0_and_1(one, other):
    assert 0 <= likeness(one, other).score <= 1
    assert likeness(one, other).score == pytest.approx(likeness(other, one).score)


def test_a_second_hand_in_with_small_slips_is_likely_the_same():
    again = replace(
        FIRST,
        day=FIRST.day + timedelta(days=1),
        position=Position(latitude=51.0004, longitude=7.0),
        seeds=1520,
        seeds_by_mother=(340, 120, 75, 500, 210, 275),
    )
    assert likeness(FIRST, again).likely_the_same


def test_two_groups_at_one_place_and_day_are_not_the_same():
    neighbours = replace(FIRST, seeds=900, seeds_by_mother=(100, 200, 150, 250, 80, 120))
    assert not likeness(FIRST, neighbours).likely_the_same


def test_the_next_visit_with_the_same_total_is_not_the_same():
    later = replace(FIRST, day=FIRST.day + timedelta(days=14), seeds_by_mother=(255,) * 6)
    assert not likeness(FIRST, later).likely_the_same


def test_bulk_collections_without_tallies_can_still_be_found_out():
    bulk = replace(FIRST, seeds_by_mother=())
    assert likeness(bulk, replace(bulk, seeds=1540)).likely_the_same
    assert not likeness(bulk, replace(bulk, seeds=2400)).likely_the_same


def test_a_day_alone_proves_nothing():
    bare = Collected(day=FIRST.day)
    assert likeness(bare, bare).score == 1
    assert not likeness(bare, bare).likely_the_same


def test_the_parts_show_what_was_compared():
    parts = {str(part.what): part.likeness for part in likeness(FIRST, replace(FIRST, seeds=1836)).parts}
    assert parts == {
        "Day": 1,
        "Place": 1,
        "Seeds in all": pytest.approx(1 - (306 / 1836) / 0.25),
        "Seeds from each mother": 1,
    }


def test_places_are_alike_as_far_as_their_uncertainty_reaches():
    near = replace(FIRST, position=Position(latitude=51.004, longitude=7.0), uncertainty_m=450)
    assert likeness(FIRST, near).score == 1
    assert likeness(FIRST, replace(near, uncertainty_m=0)).score < 1


@pytest.mark.parametrize("slip", [{"uncertainty_m": float("nan")}, {"seeds": -1}])
def test_what_cannot_be_is_refused(slip):
    with pytest.raises(OutOfRange):
        likeness(FIRST, replace(FIRST, **slip))
