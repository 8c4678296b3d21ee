"""Visitors never learn the district of a species whose places are kept back (Chapman 2020, category 1)."""

from __future__ import annotations

import pytest

from hub.taxa import actions
from hub.taxa.actions import NeedGiven
from hub.taxa.models import Taxon
from hub.taxa.rules import CareClass
from tests.taxa.garden import ARNICA, plant


def rare_plant(cast, care, sensitivity=None):
    (taxon,) = plant(cast, ARNICA)
    needs = [NeedGiven(1, cast.meadows.id, cast.north.id), NeedGiven(2, cast.meadows.id, cast.south.id)]
    with cast.work("cora") as work:
        actions.want(work, season_id=cast.season.id, taxon_id=taxon.id, needs=needs)
        stored = work.db.get_one(Taxon, taxon.id)
        stored.care_class, stored.sensitivity = care, sensitivity
    return taxon


def told(browser, taxon, cast):
    """The list, its file and both answers of the API, as one text without the filter's own choices."""
    page = browser.get("/wanted").main.partition("Arnica montana")[2]
    file = browser.get("/wanted", **{"as": "csv"}).html.partition("\n")[2]
    api = f"/api/v1/seasons/{cast.season.id}/wanted"
    answers = [browser.client.get(path).get_data(as_text=True) for path in (api, f"{api}/{taxon.id}")]
    return "\n".join([page, file, *answers])


@pytest.mark.parametrize(
    ("care", "sensitivity", "hidden"),
    [
        (CareClass.CRITICAL, None, True),
        (CareClass.GONE, None, True),
        (CareClass.CRITICAL, 4, True),
        (CareClass.SECURE, 1, True),
        (CareClass.RARE, None, False),
        (CareClass.SECURE, 4, False),
    ],
)
def test_the_district_is_told_only_where_it_may_be(browse, cast, care, sensitivity, hidden):
    taxon = rare_plant(cast, care, sensitivity)
    text = told(browse(), taxon, cast)
    for district in (cast.north, cast.south):
        for secret in (district.name, f",{district.code},", str(district.id)):
            assert not (hidden and secret in text), secret
    assert hidden or "Northern Part" in text
    assert ("3 populations from ecoregion Meadows" in text) == hidden


@pytest.mark.parametrize("name", ["alice", "cora"])
def test_those_who_are_signed_in_are_told(browse, cast, name):
    rare_plant(cast, CareClass.CRITICAL)
    assert "from Northern Part, ecoregion Meadows" in browse(name).get("/wanted").main


def test_the_filter_is_no_way_to_find_it_out(browse, cast):
    rare_plant(cast, CareClass.CRITICAL)
    with cast.work("cora") as work:
        needs = [NeedGiven(1, None, cast.north.id)]
        (taxon,) = [actions.add(work, scientific_name="Ulmus glabra Huds.")]
        actions.want(work, season_id=cast.season.id, taxon_id=taxon.id, needs=needs)
    pages = {each.code: browse().get("/wanted", district=each.id).main for each in (cast.north, cast.south)}
    assert all("Arnica" in page for page in pages.values())
    assert ["Ulmus" in page for page in pages.values()] == [True, False]
