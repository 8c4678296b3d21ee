"""Populations: inside their site, named once, verified, counted, retired."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as some

from hub.audit.queries import history_of
from hub.science.distance import Position
from hub.sites import actions, queries
from hub.sites.models import Site
from hub.sites.rules import CensusMethod, Threat
from hub.words import NotFound, Refused
from tests.cast import Cast
from tests.sites.scene import HERE, TODAY, a_population, opened, stored_taxon

METRE = 1 / 111_178  # degrees of latitude at 47.8° N, from the WGS 84 meridian
COUNT: dict[str, Any] = {"counted_on": TODAY, "method": CensusMethod.COUNTED, "plants": 40}


def bare_site(outline: dict[str, Any] | None = None) -> Site:
    return Site(name="Scar Top", radius_m=300, outline=outline, **HERE)


def at(north_m: float) -> Position:
    return Position(latitude=HERE["latitude"] + north_m * METRE, longitude=HERE["longitude"])


@given(some.floats(0, 2000), some.floats(0, 500))
def test_a_position_is_inside_when_its_uncertainty_reaches_the_site(north_m: float, off_m: float) -> None:
    miss = north_m - 300
    if abs(miss - off_m) < 1:
        return  # a metre either way is beside the point
    if miss <= off_m:
        queries.check_inside_site(bare_site(), at(north_m), uncertainty_m=off_m)
    else:
        with pytest.raises(Refused) as refusal:
            queries.check_inside_site(bare_site(), at(north_m), uncertainty_m=off_m)
        assert refusal.value.field == "latitude"


def test_an_outline_takes_the_place_of_the_circle() -> None:
    low, high = HERE["latitude"] - 50 * METRE, HERE["latitude"] + 50 * METRE
    ring = [[-28.21, low], [-28.19, low], [-28.19, high], [-28.21, high], [-28.21, low]]
    site = bare_site({"type": "Polygon", "coordinates": [ring]})
    queries.check_inside_site(site, at(49), uncertainty_m=0)
    with pytest.raises(Refused, match="50 m outside Scar Top"):
        queries.check_inside_site(site, at(100), uncertainty_m=10)


def test_plants_far_outside_are_refused_with_their_distance(cast: Cast) -> None:
    site, population = opened(cast)
    with pytest.raises(Refused, match="812 m outside Scar Top"), cast.work("alice") as work:
        actions.add_population(
            work,
            site_id=site.id,
            taxon_id=population.taxon_id,
            latitude=47.81,
            longitude=-28.2,
            uncertainty_m=5,
        )


def test_codes_follow_on(cast: Cast) -> None:
    site, first = opened(cast, by="cora")
    taxon = stored_taxon(cast, name="Dryas octopetala L.")
    with cast.work("cora") as work:
        actions.share_site(work, site_id=site.id, group_id=cast.fell_group.id)
        own = {"taxon_id": first.taxon_id, "site_id": site.id, "uncertainty_m": 5, **HERE}
        assert first.code == "SIL-ACA 01"
        assert actions.add_population(work, **own).code == "SIL-ACA 02"
        assert a_population(work, site, taxon).code == "DRY-OCT 01"
    with cast.work("alice") as work:
        assert actions.add_population(work, **own).code == "SIL-ACA FLG 01"


def test_a_code_is_given_once(cast: Cast) -> None:
    site, population = opened(cast)
    with pytest.raises(Refused) as refusal, cast.work("alice") as work:
        actions.add_population(
            work,
            site_id=site.id,
            taxon_id=population.taxon_id,
            code=population.code,
            uncertainty_m=5,
            **HERE,
        )
    assert refusal.value.field == "code"


def test_a_change_is_noted_and_a_stale_one_refused(cast: Cast) -> None:
    _, population = opened(cast)
    with cast.work("alice") as work:
        actions.change_population(work, population_id=population.id, version=1, threat=Threat.SEVERE)
    with pytest.raises(Refused, match="while you were looking"), cast.work("cora") as work:
        actions.change_population(work, population_id=population.id, version=1, threat=Threat.NONE)
    with cast.everywhere() as work:
        entry = history_of(work, thing_kind="population", thing_id=str(population.id))[-1]
        assert (entry.before, entry.after) == ({"threat": "none"}, {"threat": "severe"})


def test_identity_is_verified_once_with_how(cast: Cast) -> None:
    _, population = opened(cast)
    with cast.work("cora") as work:
        verified = actions.verify_identity(work, population_id=population.id, how="Seen in flower.")
        assert verified.identity_verified
        with pytest.raises(Refused, match="already"):
            actions.verify_identity(work, population_id=population.id, how="Again.")
    with cast.everywhere() as work:
        entry = history_of(work, thing_kind="population", thing_id=str(population.id))[-1]
        assert (entry.event, entry.reason) == ("population:changed", "Seen in flower.")


def test_a_retired_population_leaves_the_lists_and_comes_back(cast: Cast) -> None:
    _, population = opened(cast)
    with cast.work("alice") as work:
        actions.retire_population(work, population_id=population.id, reason="Ploughed.")
        assert queries.populations_of(work, population.taxon_id) == []
        actions.bring_back_population(work, population_id=population.id, reason="They were next door.")
        assert [each.id for each in queries.populations_of(work, population.taxon_id)] == [population.id]


def test_counts_are_kept_in_order(cast: Cast) -> None:
    _, population = opened(cast)
    with cast.work("bob") as work:
        for days_ago, plants in ((1, 50), (400, 70), (1, 48)):
            day = TODAY - timedelta(days_ago)
            given_count = COUNT | {"counted_on": day, "plants": plants}
            actions.record_census(work, population_id=population.id, **given_count)
            work.db.flush()
        assert queries.censuses(work, population.id)[0].plants == 70
        latest = queries.latest_census(work, population.id)
        assert latest is not None
        assert latest.counted_on == TODAY - timedelta(1)


@pytest.mark.parametrize(
    ("figures", "field"),
    [
        ({"counted_on": date(2031, 7, 15)}, "counted_on"),
        ({"plants_low": 30}, "plants_high"),
        ({"plants_high": 30}, "plants_low"),
        ({"plants_low": 41, "plants_high": 60}, "plants_low"),
        ({"plants_low": 30, "plants_high": 39}, "plants_high"),
        ({"fruiting_plants": 41}, "fruiting_plants"),
    ],
)
def test_figures_that_contradict_each_other_are_refused(
    cast: Cast, figures: dict[str, Any], field: str
) -> None:
    _, population = opened(cast)
    with pytest.raises(Refused) as refusal, cast.work("alice") as work:
        actions.record_census(work, population_id=population.id, **COUNT | figures)
    assert refusal.value.field == field
    with cast.work("alice") as work:
        assert queries.latest_census(work, population.id) is None


@pytest.mark.parametrize("stranger", ["charlie", "eve", "dora"])
def test_strangers_count_nothing(cast: Cast, stranger: str) -> None:
    _, population = opened(cast)
    with pytest.raises(NotFound), cast.work(stranger) as work:
        actions.record_census(work, population_id=population.id, **COUNT)
