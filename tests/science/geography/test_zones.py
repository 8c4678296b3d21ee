"""Seed zones with enough accessions, and what the others still need."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.science.geography.zones import zone_coverage
from hub.science.quantity import OutOfRange, Unit

names = st.sampled_from("ABCDEFG")


@given(st.sets(names, min_size=1), st.lists(names), names, st.integers(1, 4))
def test_another_accession_never_lowers_the_share(zones, accessions, another, enough):
    less = zone_coverage(zones, accessions, at_least=enough)
    more = zone_coverage(zones, [*accessions, another], at_least=enough)
    assert 0 <= less.share.value <= more.share.value <= 1
    assert more.share.unit is Unit.SHARE


@given(st.sets(names, min_size=1), st.lists(names), st.integers(1, 4))
def test_what_is_still_needed_is_enough(zones, accessions, enough):
    needed = zone_coverage(zones, accessions, at_least=enough).still_needed
    given_more = accessions + [zone for zone, more in needed.items() for _ in range(more)]
    assert zone_coverage(zones, given_more, at_least=enough).share.value == 1


def test_zones_are_counted_each_in_its_ecoregion():
    covered = zone_coverage([("warm", "Fell"), ("warm", "Coast")], [("warm", "Fell")])
    assert covered.share.value == 0.5
    assert covered.still_needed == {("warm", "Coast"): 1}


def test_zones_still_needing_come_by_name_and_strangers_are_told():
    covered = zone_coverage(["B", "A"], ["A", "Z"], at_least=2)
    assert list(covered.still_needed.items()) == [("A", 1), ("B", 2)]
    assert "One accession" in str(covered.share.warnings[0])
    assert zone_coverage(["A"], ["A"]).share.warnings == ()


def test_no_zone_and_no_accession_wanted_are_refused():
    with pytest.raises(OutOfRange):
        zone_coverage([], [])
    with pytest.raises(OutOfRange):
        zone_coverage(["A"], [], at_least=0)
