"""The wanted list: a line for each species, a need for each place, and only its own bank changes it."""

from __future__ import annotations

import pytest
from sqlalchemy import select

from hub.audit.queries import history_of
from hub.groups.models import District, Region
from hub.taxa import actions, queries
from hub.taxa.actions import NeedGiven
from hub.taxa.models import Wanted
from hub.taxa.queries.lists import wanted as wanted_lines
from hub.words import NotFound, Refused
from tests.cast import square
from tests.taxa.garden import ARNICA, CAMPION, list_of, plant


def want(cast, taxon, *needs, by="cora", **more):
    with cast.work(by) as work:
        return actions.want(work, season_id=cast.season.id, taxon_id=taxon.id, needs=list(needs), **more)


def test_a_species_is_wanted_with_its_needs(cast):
    (taxon,) = plant(cast, ARNICA)
    line = want(cast, taxon, NeedGiven(2, cast.meadows.id), NeedGiven(1, None, cast.north.id), priority=1)
    with cast.work("alice") as work:
        assert queries.wanted_of(work, cast.season.id, taxon.id).id == line.id
        needs = queries.needs_of(work, line.id)
        assert {(need.populations, need.ecoregion_id, need.district_id) for need in needs} == {
            (2, cast.meadows.id, None),
            (1, None, cast.north.id),
        }


def test_wanting_again_sets_the_line_anew_and_the_same_again_changes_nothing(cast):
    (taxon,) = plant(cast, ARNICA)
    want(cast, taxon, NeedGiven(2), note="old")
    for _ in range(2):
        line = want(cast, taxon, NeedGiven(3, None, cast.south.id), note="new", priority=3)
    with cast.work("cora") as work:
        assert [need.populations for need in queries.needs_of(work, line.id)] == [3]
        entries = history_of(work, thing_kind="wanted", thing_id=str(line.id))
    assert [entry.after["note"] for entry in entries] == ["old", "new"]


@pytest.mark.parametrize(
    ("needs", "more", "field"),
    [
        ([], {}, None),
        ([NeedGiven(0)], {}, "needs-0-populations"),
        ([NeedGiven(100)], {}, "needs-0-populations"),
        ([NeedGiven(1), NeedGiven(2)], {}, "needs-1-ecoregion_id"),
        ([NeedGiven(1)], {"priority": 4}, "priority"),
    ],
)
def test_what_cannot_be_is_refused(cast, needs, more, field):
    (taxon,) = plant(cast, ARNICA)
    with pytest.raises(Refused) as refused:
        want(cast, taxon, *needs, **more)
    assert refused.value.field == field


def test_places_of_another_region_are_refused(cast):
    (taxon,) = plant(cast, ARNICA)
    with cast.everywhere() as work:
        far = Region(code="FAR", name="Far Isles")
        work.db.add(far)
        work.db.flush()
        district = District(region_id=far.id, code="isle", name="Isle", geometry=square(40, 41))
        work.db.add(district)
        isle = actions.add_ecoregion(
            work, region_id=far.id, scheme="FAR", code="F.1", name="Isle", geometry=square(40, 41)
        )
    for need, field in (
        (NeedGiven(1, isle.id), "ecoregion_id"),
        (NeedGiven(1, None, district.id), "district_id"),
    ):
        with pytest.raises(Refused) as refused:
            want(cast, taxon, need)
        assert refused.value.field == f"needs-0-{field}"


@pytest.mark.parametrize("by", ["dora", "alice", "olga"])
def test_nobody_else_changes_the_list(cast, by):
    (taxon,) = list_of(cast, ARNICA)
    with pytest.raises(NotFound):
        want(cast, taxon, NeedGiven(1), by=by)
    with pytest.raises(NotFound), cast.work(by) as work:
        actions.unwant(work, season_id=cast.season.id, taxon_id=taxon.id)


def test_a_species_can_be_taken_off_once(cast):
    taxon, other = list_of(cast, ARNICA, CAMPION)
    with cast.work("cora") as work:
        actions.unwant(work, season_id=cast.season.id, taxon_id=taxon.id)
    with cast.work("cora") as work:
        assert [line.taxon_id for line in work.db.scalars(select(Wanted))] == [other.id]
    with pytest.raises(NotFound), cast.work("cora") as work:
        actions.unwant(work, season_id=cast.season.id, taxon_id=taxon.id)


def names(cast, **conditions):
    with cast.work("alice") as work:
        rows = work.db.execute(wanted_lines(work, cast.season.id, **conditions)).all()
        return {row.Taxon.canonical for row in rows}


def test_a_need_that_is_open_is_found_from_everywhere(cast):
    arnica, campion = plant(cast, ARNICA, CAMPION)
    want(cast, arnica, NeedGiven(1, None, cast.north.id))
    want(cast, campion, NeedGiven(1))
    assert names(cast, district=cast.north.id) == {"Arnica montana", "Silene acaulis"}
    assert names(cast, district=cast.south.id) == {"Silene acaulis"}
    assert names(cast, ecoregion=cast.meadows.id) == {"Arnica montana", "Silene acaulis"}
    assert names(cast, search="moss campion") == set()
    assert names(cast, search="silene") == {"Silene acaulis"}


def test_what_groups_hold_is_no_longer_needed(cast):
    from hub.adoptions.models import StageCount
    from hub.adoptions.rules import Stage

    arnica, campion = plant(cast, ARNICA, CAMPION)
    want(cast, arnica, NeedGiven(2))
    want(cast, campion, NeedGiven(1), NeedGiven(1, None, cast.north.id))
    with cast.everywhere() as work:
        counted = {"season_id": cast.season.id, "district_id": cast.north.id, "adoptions": 1}
        work.db.add(StageCount(taxon_id=arnica.id, stage=Stage.ASKED, **counted))
        work.db.add(StageCount(taxon_id=arnica.id, stage=Stage.BANKED, **counted))
        work.db.add(StageCount(taxon_id=campion.id, stage=Stage.ASKED, **counted))
    assert names(cast, needed=True) == {"Silene acaulis"}
    with cast.work("alice") as work:
        (row,) = queries.lists_with(work, arnica.id)
        assert (row.populations, row.held, row.bank) == (2, 2, "Fell Bank")
