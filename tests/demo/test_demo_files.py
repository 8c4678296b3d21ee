"""The invented scenario hangs together: shapes, names, places and claims, without any database."""

from __future__ import annotations

import json
from collections import Counter
from datetime import date
from itertools import combinations
from typing import Any

import pytest
from shapely.geometry import Point, Polygon, shape
from shapely.ops import unary_union

from hub.adoptions.rules import AdoptionState
from hub.sites.rules import CensusMethod, Origin, PermissionState, Threat, Trend
from hub.taxa.models import Difficulty, Evidence, StandingKind
from hub.taxa.names import parse_name
from hub.taxa.ranks import parse_rank
from hub.taxa.red_list import parse_assessment
from hub.taxa.rules import CareClass, FruitType, Hazard, LegalList, LifeForm, StorageBehaviour, care_class
from tests.demo.reading import DEMO, YEARS, features, inside_site, keyed, populations, rows, season, toml

TODAY = date(2031, 7, 14)
POLYGON_FILES = ["districts.geojson", "ecoregions.geojson", "lake.geojson", "habitats.geojson"]


@pytest.mark.parametrize("name", [*POLYGON_FILES, "rivers.geojson"])
def test_shapes_are_valid_and_inside_the_box_of_the_region(name: str) -> None:
    for key, each in features(name).items():
        west, south, east, north = each.bounds
        assert each.is_valid, key
        assert -28.90 <= west <= east <= -27.40, key
        assert 47.20 <= south <= north <= 48.10, key


@pytest.mark.parametrize("name", POLYGON_FILES)
def test_rings_follow_the_right_hand_rule(name: str) -> None:
    """RFC 7946, section 3.1.6: exterior rings run anticlockwise."""
    for key, each in features(name).items():
        assert each.exterior.is_ccw, key


def test_districts_tile_the_region() -> None:
    districts = features("districts.geojson")
    region = unary_union(list(districts.values()))
    assert set(districts) == {"ostrith-fell", "thornmere", "larchwick-levels", "dunwerry-coast"}
    assert region.geom_type == "Polygon"
    assert not region.interiors
    for one, other in combinations(districts.values(), 2):
        assert one.intersection(other).area == 0


def test_leaf_ecoregions_tile_the_same_region() -> None:
    regions = features("ecoregions.geojson")
    leaves = [regions[code] for code in ("HV.1", "HV.2.1", "HV.2.2", "HV.3")]
    land = unary_union(list(features("districts.geojson").values()))
    assert unary_union(leaves).symmetric_difference(land).area == pytest.approx(0, abs=1e-9)
    assert sum(leaf.area for leaf in leaves) == pytest.approx(land.area, abs=1e-9)
    assert regions["HV.2"].equals(unary_union(leaves[1:3]))


def test_habitats_lie_in_the_district_they_name() -> None:
    found = json.loads((DEMO / "habitats.geojson").read_text(encoding="utf-8"))["features"]
    assert len(found) == 10
    for each in found:
        district = features("districts.geojson")[each["properties"]["district"]]
        assert district.contains(shape(each["geometry"])), each["id"]


def test_names_parse_without_a_warning() -> None:
    taxa = toml("taxa.toml")["taxon"]
    assert len(taxa) == 25
    for taxon in taxa:
        assert parse_name(taxon["scientific_name"]).warnings == (), taxon["scientific_name"]


def test_standings_parse() -> None:
    for taxon in toml("taxa.toml")["taxon"]:
        for standing in taxon["standings"]:
            match StandingKind(standing["kind"]):
                case StandingKind.RANK:
                    assert parse_rank(standing["text"]) is not None
                case StandingKind.CATEGORY:
                    assert parse_assessment(standing["text"]) is not None
                case StandingKind.LISTING:
                    assert standing["text"] in set(LegalList)


def test_every_care_class_but_gone_has_its_species() -> None:
    found: dict[CareClass, set[str]] = {}
    for taxon in toml("taxa.toml")["taxon"]:
        found.setdefault(care_of(taxon), set()).add(taxon["key"])
    assert {care: len(keys) for care, keys in found.items()} == {
        CareClass.CRITICAL: 4,
        CareClass.RARE: 5,
        CareClass.WATCH: 5,
        CareClass.SECURE: 10,
        CareClass.UNKNOWN: 1,
    }
    assert found[CareClass.UNKNOWN] == {"castanea-sativa"}


def care_of(taxon: dict[str, Any]) -> CareClass:
    said = {
        kind: [each["text"] for each in taxon["standings"] if each["kind"] == kind] for kind in StandingKind
    }
    ranks = [rank for text in said[StandingKind.RANK] if (rank := parse_rank(text))]
    categories = [
        judged.category for text in said[StandingKind.CATEGORY] if (judged := parse_assessment(text))
    ]
    return care_class(ranks, categories, map(LegalList, said[StandingKind.LISTING])).care


@pytest.mark.parametrize("taxon", toml("taxa.toml")["taxon"], ids=lambda taxon: taxon["key"])
def test_traits_are_words_of_the_hub(taxon: dict[str, Any]) -> None:
    assert LifeForm(taxon["life_form"]) is not LifeForm.UNKNOWN
    assert FruitType(taxon["fruit_type"]) is not FruitType.UNKNOWN
    assert StorageBehaviour(taxon["storage"]) is not StorageBehaviour.UNKNOWN
    assert Evidence(taxon["storage_evidence"])
    assert Difficulty(taxon["difficulty"])
    assert all(Hazard(each) for each in taxon["hazards"])
    assert 1 <= taxon["flowers_from"] <= 12
    assert 1 <= taxon["ripens_from"] <= taxon["ripens_to"] <= 12
    assert set(taxon["ecoregions"]) <= set(features("ecoregions.geojson"))


def test_species_carry_the_storage_of_the_handbook() -> None:
    """HANDBOOK §5.4, rows 6, 9, 15, 26, 29, 36 and 44."""
    expected = {
        "castanea-sativa": "recalcitrant",
        "acer-pseudoplatanus": "unresolved",
        "fagus-sylvatica": "intermediate",
        "salix-herbacea": "short_lived",
        "ulmus-glabra": "short_lived",
        "juniperus-communis": "orthodox",
        "cytisus-scoparius": "orthodox_hard",
    }
    taxa = keyed("taxa.toml", "taxon")
    assert {key: taxa[key]["storage"] for key in expected} == expected


def test_wanted_lists_name_known_species_and_places() -> None:
    names = {taxon["scientific_name"] for taxon in toml("taxa.toml")["taxon"]}
    for year in YEARS:
        for row in rows(f"wanted_{year}.csv"):
            assert row["scientific_name"] in names
            assert int(row["populations"]) >= 1
            assert row["priority"] in {"1", "2", "3"}
            assert not row["ecoregion"] or row["ecoregion"] in features("ecoregions.geojson")
            assert not row["district"] or row["district"] in features("districts.geojson")


def test_sites_lie_in_their_district() -> None:
    sites = [site for site in toml("sites.toml")["site"] if site["region"] == "halverin-vale"]
    assert len(sites) == 60
    for site in sites:
        district = features("districts.geojson")[site["district"]]
        ecoregion = features("ecoregions.geojson")[site["ecoregion"]]
        centre = Point(site["longitude"], site["latitude"])
        assert ecoregion.contains(centre), site["key"]
        assert PermissionState(site["permission"]["state"])
        outline = Polygon(site["polygon"]) if "polygon" in site else centre
        assert outline.is_valid, site["key"]
        assert district.contains(outline), site["key"]


def test_sites_show_every_state_of_permission() -> None:
    states = {site["permission"]["state"] for site in toml("sites.toml")["site"]}
    assert states == set(PermissionState)


@pytest.mark.parametrize("population", rows("populations.csv"), ids=lambda each: each["key"])
def test_populations_stand_on_their_site(population: dict[str, str]) -> None:
    site = keyed("sites.toml", "site")[population["site"]]
    latitude, longitude = float(population["latitude"]), float(population["longitude"])
    district = features("districts.geojson", site["region"])[site["district"]]
    assert inside_site(site, latitude, longitude)
    assert district.contains(Point(longitude, latitude))
    assert 0 < int(population["fruiting_plants"]) <= int(population["plants"])
    assert Trend(population["trend"])
    assert Threat(population["threat"])
    assert Origin(population["origin"])
    assert CensusMethod(population["census_method"])


def test_populations_number_as_the_scenario_says() -> None:
    names = Counter(population["taxon"] for population in rows("populations.csv"))
    assert sum(names.values()) == 181  # 180 of Halverin Vale, one of the Corrant Isles
    assert set(names) == {taxon["scientific_name"] for taxon in toml("taxa.toml")["taxon"]}


def test_adoptions_refer_to_what_exists() -> None:
    groups, wanted = keyed("groups.toml", "group"), {}
    for year in YEARS:
        wanted[year] = {row["scientific_name"] for row in rows(f"wanted_{year}.csv")}
    for adoption in season("adoption").values():
        population = populations()[adoption["population"]]
        assert population["taxon"] == adoption["taxon"]
        assert groups[adoption["group"]]["state"] == "active"
        assert (
            groups[adoption["group"]]["bank"] == "ciss"
            or adoption["taxon"] in wanted[adoption["requested_on"].year]
        )
        assert adoption["requested_on"] <= adoption.get("decided_on", TODAY) <= adoption["state_since"] or (
            adoption["state"] == "requested"
        )


def test_this_season_shows_every_state_of_an_adoption_but_a_refusal() -> None:
    adoptions = [
        each for each in toml("seasons/2031.toml")["adoption"] if each["group"] != "skerravoe-shore-club"
    ]
    assert len(adoptions) == 24
    assert {each["state"] for each in adoptions} == set(AdoptionState) - {AdoptionState.DECLINED}
    assert max(Counter(each["group"] for each in adoptions).values()) <= 4


def test_rare_plants_rest_after_a_collecting_year() -> None:
    """HANDBOOK D2: one year in ten for rare and critical plants, unless a curator opens more."""
    resting = {CareClass.RARE, CareClass.CRITICAL}
    rare = {taxon["scientific_name"] for taxon in toml("taxa.toml")["taxon"] if care_of(taxon) in resting}
    years: dict[str, set[int]] = {}
    for each in season("submission").values():
        if populations()[each["population"]]["taxon"] in rare:
            years.setdefault(each["population"], set()).add(each["collection"]["collected_on"].year)
    assert years
    assert all(len(found) == 1 for found in years.values())
