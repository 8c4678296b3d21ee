"""What nobody has stated reaches the rules as unknown, so that the sheet asks for it."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest

from hub.adoptions.models import Adoption
from hub.protocols.case import Case
from hub.protocols.casework import facts_of
from hub.protocols.engine import issue
from hub.protocols.rulebook_reader import standard_rulebook
from hub.protocols.sheet import Sheet, Status
from hub.sites.actions import add_population, open_site
from hub.sites.models import Population, Site, TakeAccount
from hub.taxa import actions as taxa
from hub.taxa.actions import set_standings
from hub.taxa.models import StandingKind, Taxon
from hub.taxa.standings import StandingGiven
from tests.cast import Cast
from tests.protocols.scene import TODAY, Scene, count, set_scene
from tests.vetting.scene import HERE


def case_of(cast: Cast, scene: Scene) -> Case:
    with cast.everywhere() as work:
        adoption = work.db.get_one(Adoption, scene.adoption_id)
        return facts_of(work, adoption, work.db.get_one(Population, scene.population_id))


def sheet_of(cast: Cast, scene: Scene) -> Sheet:
    return issue(case_of(cast, scene), standard_rulebook(), on=TODAY)


def unsay(cast: Cast, scene: Scene, kind: type[Any], name: str) -> None:
    """Nobody has said this of the taxon, the site or the population."""
    key = {Taxon: scene.taxon_id, Site: scene.site_id, Population: scene.population_id}[kind]
    with cast.everywhere() as work:
        setattr(work.db.get_one(kind, key), name, None)


def test_the_scene_is_ready(cast: Cast) -> None:
    assert sheet_of(cast, set_scene(cast)).status is Status.READY


FACTS: list[tuple[type[Any], str, str, str]] = [
    (Taxon, "hazards", "taxon", "hazards"),
    (Taxon, "native", "taxon", "native"),
    (Taxon, "masting", "taxon", "masts"),
    (Taxon, "two_year_ripening", "taxon", "two_year_ripening"),
    (Taxon, "dioecious", "taxon", "dioecious"),
    (Taxon, "clonal", "taxon", "clonal"),
    (Taxon, "international_trade_listed", "taxon", "trade_controlled"),
    (Site, "own_consent_needed", "population", "indigenous_land"),
    (Site, "risks", "population", "site_risks"),
    (Site, "protected_area", "population", "protected_area"),
    (Population, "years_collected_before", "history", "years_collected"),
]


@pytest.mark.parametrize(("kind", "name", "part", "fact"), FACTS)
def test_each_fact_is_unknown_until_somebody_states_it(
    cast: Cast, kind: type[Any], name: str, part: str, fact: str
) -> None:
    scene = set_scene(cast)
    assert getattr(getattr(case_of(cast, scene), part), fact) is not None
    unsay(cast, scene, kind, name)
    assert getattr(getattr(case_of(cast, scene), part), fact) is None


SPEAKS = [
    (Taxon, "hazards", "caution.hazard-unknown"),
    (Taxon, "clonal", "mothers.clonal"),
    (Site, "risks", "caution.cliff"),
    (Site, "protected_area", "paper.protected-area"),
    (Taxon, "international_trade_listed", "paper.trade"),
    (Site, "own_consent_needed", "paper.indigenous"),
]


@pytest.mark.parametrize(("kind", "name", "rule"), SPEAKS)
def test_the_careful_rule_speaks(cast: Cast, kind: type[Any], name: str, rule: str) -> None:
    scene = set_scene(cast)
    assert rule not in spoken(cast, scene)
    unsay(cast, scene, kind, name)
    assert rule in spoken(cast, scene)


def spoken(cast: Cast, scene: Scene) -> set[str]:
    return set(sheet_of(cast, scene).heard)


STOPS = [
    (Taxon, "native"),
    (Site, "protected_area"),
    (Site, "own_consent_needed"),
    (Population, "years_collected_before"),
]


@pytest.mark.parametrize(("kind", "name"), STOPS)
def test_without_these_no_sheet_is_ready(cast: Cast, kind: type[Any], name: str) -> None:
    scene = set_scene(cast)
    unsay(cast, scene, kind, name)
    assert sheet_of(cast, scene).status is not Status.READY


def test_a_species_without_standings_is_neither_listed_nor_unlisted(cast: Cast) -> None:
    scene = set_scene(cast)
    with cast.work("cora") as work:
        set_standings(work, taxon_id=scene.taxon_id, standings=[])
    case = case_of(cast, scene)
    assert (case.taxon.listed, case.permit_needed) == (None, None)
    assert sheet_of(cast, scene).status is not Status.READY


def test_a_rank_says_nothing_of_the_law(cast: Cast) -> None:
    scene = set_scene(cast)
    rank = StandingGiven(StandingKind.RANK, "G5", "world", "Test Survey")
    with cast.work("cora") as work:
        set_standings(work, taxon_id=scene.taxon_id, standings=[rank])
    case = case_of(cast, scene)
    assert (case.taxon.listed, case.permit_needed) == (None, None)
    assert sheet_of(cast, scene).status is not Status.READY


def test_a_protected_site_needs_a_permit_whatever_is_known_of_the_species(cast: Cast) -> None:
    scene = set_scene(cast)
    with cast.work("cora") as work:
        set_standings(work, taxon_id=scene.taxon_id, standings=[])
    with cast.everywhere() as work:
        work.db.get_one(Site, scene.site_id).protected_area = True
    assert case_of(cast, scene).permit_needed is True


def test_a_new_species_site_and_population_say_nothing(cast: Cast) -> None:
    with cast.work("cora") as work:
        taxon = taxa.add(work, scientific_name="Arnica montana L.")
        site = open_site(
            work, name="Scar", district_id=cast.north.id, radius_m=300, owner_label="The estate",
            locality="", **HERE,
        )  # fmt: skip
        population = add_population(work, site_id=site.id, taxon_id=taxon.id, uncertainty_m=10, **HERE)
        things = {Taxon: taxon, Site: site, Population: population}
        assert [name for kind, name, *_ in FACTS if getattr(things[kind], name) is not None] == []


def test_what_a_count_says_of_the_crop_reaches_the_rules(cast: Cast) -> None:
    scene = set_scene(cast)
    said = {"plants_counted": 12, "poor_year": True, "empty_share": 0.2, "immature_share": 0.1}
    count(
        cast,
        scene.population_id,
        on=TODAY - timedelta(days=1),
        **said,
        fruits_per_plant_se=2.5,
        seeds_per_fruit_se=1.5,
    )
    crop = case_of(cast, scene).crop
    assert {name: getattr(crop, name) for name in said} == said
    assert (crop.ripe_fruits_per_plant_se, crop.good_seeds_per_fruit_se) == (2.5, 1.5)
    count(cast, scene.population_id, on=TODAY, plants_counted=None, poor_year=None)
    assert {getattr(case_of(cast, scene).crop, name) for name in said} == {None}


@pytest.mark.parametrize(("poor", "ready"), [(None, False), (True, False), (False, True)])
def test_a_masting_species_waits_for_a_word_on_the_year(cast: Cast, poor: bool | None, ready: bool) -> None:
    scene = set_scene(cast, masting=True)
    count(cast, scene.population_id, plants_counted=12, poor_year=poor)
    assert (sheet_of(cast, scene).status is Status.READY) is ready


def test_a_disease_stays_known_until_a_count_denies_it(cast: Cast) -> None:
    scene = set_scene(cast)
    assert case_of(cast, scene).population.disease_known is None
    days = (TODAY - timedelta(days=ago) for ago in (3, 2, 1))
    for day, seen, known in zip(days, (True, None, False), (True, True, False), strict=True):
        count(cast, scene.population_id, on=day, disease_seen=seen)
        assert case_of(cast, scene).population.disease_known is known


def test_earlier_years_join_those_of_the_hub(cast: Cast) -> None:
    scene = set_scene(cast)
    with cast.everywhere() as work:
        population = work.db.get_one(Population, scene.population_id)
        population.years_collected_before = [2026, 2030, 2031]
        for year in (2029, 2030):
            work.db.add(
                TakeAccount(
                    bank_id=population.bank_id, site_id=population.site_id, population_id=population.id,
                    year=year, allowance_seeds=10, taken_seeds=10,
                )
            )  # fmt: skip
    assert case_of(cast, scene).history.years_collected == (2026, 2029, 2030)
