"""Ecoregions carry checked outlines; a species grows in those of one's own region."""

from __future__ import annotations

import pytest

from hub.audit.queries import history_of
from hub.groups.models import Region
from hub.taxa import actions, queries
from hub.words import NotFound, Refused
from tests.cast import square
from tests.taxa.garden import ARNICA, plant


def add(cast, **given):
    usual = {
        "region_id": cast.region.id,
        "scheme": "TST",
        "code": "T.2",
        "name": "Bogs",
        "geometry": square(47.2, 47.4),
    }
    with cast.everywhere() as work:
        return actions.add_ecoregion(work, **{**usual, **given})


def test_an_ecoregion_is_kept_with_a_right_handed_outline(cast):
    bogs = add(
        cast, geometry={"type": "Polygon", "coordinates": [square(47.2, 47.4)["coordinates"][0][::-1]]}
    )
    with cast.work("cora") as work:
        assert [each.code for each in queries.ecoregions(work, cast.region.id)] == ["T.1", "T.2"]
    assert bogs.geometry["coordinates"][0][1][0] > bogs.geometry["coordinates"][0][0][0]


@pytest.mark.parametrize(
    ("given", "field"), [({"code": "T.1"}, "code"), ({"geometry": {"type": "Point"}}, "geometry")]
)
def test_what_cannot_be_is_refused(cast, given, field):
    with pytest.raises(Refused) as refused:
        add(cast, **given)
    assert refused.value.field == field


def test_a_species_grows_where_a_curator_says(cast):
    (taxon,) = plant(cast, ARNICA)
    bogs = add(cast)
    for chosen in ([cast.meadows.id, bogs.id], [bogs.id], [bogs.id]):
        with cast.work("cora") as work:
            actions.set_ecoregions(work, taxon_id=taxon.id, ecoregion_ids=chosen)
    with cast.work("cora") as work:
        assert [each.id for each in queries.ecoregions_of(work, taxon.id)] == [bogs.id]
        changes = history_of(work, thing_kind="taxon", thing_id=str(taxon.id))[1:]
    assert [change.after for change in changes] == [{"ecoregions": ["T.1", "T.2"]}, {"ecoregions": ["T.2"]}]


def test_ecoregions_of_other_regions_stay_and_cannot_be_chosen(cast):
    (taxon,) = plant(cast, ARNICA)
    with cast.everywhere() as work:
        far = Region(code="FAR", name="Far Isles")
        work.db.add(far)
        work.db.flush()
        isle = actions.add_ecoregion(
            work, region_id=far.id, scheme="FAR", code="F.1", name="Isle", geometry=square(40, 41)
        )
        actions.set_ecoregions(work, taxon_id=taxon.id, ecoregion_ids=[isle.id, cast.meadows.id])
    with cast.work("cora") as work:
        actions.set_ecoregions(work, taxon_id=taxon.id, ecoregion_ids=[])
        assert [each.id for each in queries.ecoregions_of(work, taxon.id)] == [isle.id]
    with pytest.raises(Refused, match="your region"), cast.work("cora") as work:
        actions.set_ecoregions(work, taxon_id=taxon.id, ecoregion_ids=[isle.id])


def test_one_ecoregion_by_id(cast):
    with cast.work("cora") as work:
        assert queries.get_ecoregion(work, cast.meadows.id).code == "T.1"
        with pytest.raises(NotFound):
            queries.get_ecoregion(work, cast.season.id)
