"""Sites: opened inside their district, seen by their bank and whoever is let in, changed with care."""

from __future__ import annotations

import pytest

from hub.audit.models import AuditEntry
from hub.audit.queries import history_of
from hub.sites import actions, queries
from hub.sites.models import Site
from hub.words import NotFound, Refused
from tests.cast import Cast, square
from tests.sites.scene import HERE, a_population, a_site, opened, stored_taxon


def history(cast: Cast, site: Site) -> list[AuditEntry]:
    with cast.everywhere() as work:
        return history_of(work, thing_kind="site", thing_id=str(site.id))


def test_a_group_that_opens_a_site_is_let_in(cast: Cast) -> None:
    site, _ = opened(cast)
    with cast.work("bob") as work:
        assert queries.get_site(work, site.id).name == "Scar Top"
        assert queries.newest_permission(work, site.id).state == "to ask"
    assert site.bank_id == cast.fell_bank.id
    assert site.ecoregion_id == cast.meadows.id, "found from the position"
    assert [entry.event for entry in history(cast, site)] == ["site:opened"]


@pytest.mark.parametrize("stranger", ["charlie", "eve", "dora", "olga"])
def test_others_see_nothing_of_it(cast: Cast, stranger: str) -> None:
    site, population = opened(cast)
    with cast.work(stranger) as work:
        with pytest.raises(NotFound):
            queries.get_site(work, site.id)
        with pytest.raises(NotFound):
            queries.get_population(work, population.id)
        assert queries.populations_of(work, population.taxon_id) == []
        assert queries.newest_permission(work, site.id) is None


def test_the_bank_shares_its_site_and_takes_it_back(cast: Cast) -> None:
    site, population = opened(cast, by="cora")
    with cast.work("cora") as work:
        first = actions.share_site(work, site_id=site.id, group_id=cast.vale_school.id)
        assert actions.share_site(work, site_id=site.id, group_id=cast.vale_school.id).id == first.id
    with cast.work("charlie") as work:
        assert queries.get_population(work, population.id).code == "SIL-ACA 01"
    with cast.work("cora") as work:
        actions.unshare_site(work, site_id=site.id, group_id=cast.vale_school.id)
    with cast.work("charlie") as work, pytest.raises(NotFound):
        queries.get_site(work, site.id)


def test_a_site_is_not_shared_with_a_group_of_another_bank(cast: Cast) -> None:
    site, _ = opened(cast, by="cora")
    with pytest.raises(NotFound), cast.work("cora") as work:
        actions.share_site(work, site_id=site.id, group_id=cast.shore_group.id)


def test_the_group_that_opened_a_site_stays_let_in(cast: Cast) -> None:
    site, _ = opened(cast)
    with pytest.raises(Refused, match="opened the site"), cast.work("cora") as work:
        actions.unshare_site(work, site_id=site.id, group_id=cast.fell_group.id)


def test_a_position_outside_the_district_is_refused_with_its_distance(cast: Cast) -> None:
    with pytest.raises(Refused, match="km outside Northern Part") as refusal, cast.work("alice") as work:
        a_site(work, cast, latitude=47.5)
    assert refusal.value.field == "latitude"
    assert "11.1 km" in str(refusal.value.words), "a tenth of a degree of latitude at 47.5° N"


def test_the_outline_holds_the_position(cast: Cast) -> None:
    with pytest.raises(Refused, match="inside its outline"), cast.work("alice") as work:
        a_site(work, cast, outline=square(47.85, 47.9))


def test_a_broken_outline_is_refused(cast: Cast) -> None:
    with pytest.raises(Refused), cast.work("alice") as work:
        a_site(work, cast, outline={"type": "Polygon", "coordinates": [[[1, 2], [3, 4]]]})


def test_changes_are_noted_without_the_place(cast: Cast) -> None:
    site, _ = opened(cast)
    with cast.work("alice") as work:
        actions.change_site(work, site_id=site.id, habitat="scree", latitude=47.8001, locality="By the wall.")
    entry = history(cast, site)[-1]
    assert entry.after == {"habitat": "scree", "latitude": "…", "locality": "…"}
    assert "47.8" not in str(entry.before)


def test_changing_nothing_notes_nothing(cast: Cast) -> None:
    site, _ = opened(cast)
    with cast.work("alice") as work:
        actions.change_site(work, site_id=site.id, name="Scar Top")
    assert len(history(cast, site)) == 1


def test_a_site_does_not_move_away_from_its_plants(cast: Cast) -> None:
    site, _ = opened(cast)
    with pytest.raises(Refused, match="SIL-ACA FLG 01 would lie outside"), cast.work("alice") as work:
        actions.change_site(work, site_id=site.id, latitude=47.81)


def test_a_stale_change_is_refused(cast: Cast) -> None:
    site, _ = opened(cast)
    with cast.work("cora") as work:
        actions.change_site(work, site_id=site.id, habitat="scree")
    with pytest.raises(Refused, match="while you were looking"), cast.work("alice") as work:
        actions.change_site(work, site_id=site.id, version=1, habitat="meadow")


def test_a_near_site_is_pointed_out_not_refused(cast: Cast) -> None:
    site, _ = opened(cast)
    with cast.work("alice") as work:
        other = a_site(work, cast, latitude=47.801)
        near = queries.near_sites(work, position=queries.position_of(other), but=other.id)
    assert [(found.id, round(metres)) for found, metres in near] == [(site.id, 111)]


def test_near_plants_of_the_same_species_are_pointed_out(cast: Cast) -> None:
    site, population = opened(cast)
    other = stored_taxon(cast, name="Dryas octopetala L.")
    with cast.work("alice") as work:
        again = a_population(work, site, work.db.merge(other))
        position = queries.position_of(again)
        same = queries.near_populations(work, taxon_id=population.taxon_id, position=position)
        assert [found.id for found, _ in same] == [population.id]
        assert queries.near_populations(work, taxon_id=other.id, position=position, but=again.id) == []
    assert HERE["latitude"] == again.latitude
