"""A population's page, adding and changing one, verifying, retiring, counting."""

from __future__ import annotations

from typing import Any

import pytest
from sqlalchemy import select

from hub.audit.models import AuditEntry
from hub.sites import actions, queries
from hub.sites.models import Population, TakeAccount
from hub.sites.rules import CensusMethod
from hub.taxa.rules import CareClass
from tests.cast import Cast
from tests.sites.litany import (
    Browse,
    asks_to_sign_in,
    hides_from,
    is_missing,
    keeps_its_verbs,
    opens_to,
)
from tests.sites.scene import TODAY, opened

PLACE = {"latitude": "47.8", "longitude": "-28.2", "uncertainty_m": "10"}
RIGHTS = {
    "": (("alice", "bob", "cora", "tess"), ("olga",)),
    "/census": (("alice", "bob", "cora"), ("tess", "olga")),
    "/change": (("alice", "cora"), ("bob", "tess", "olga")),
    "/retire": (("alice", "cora"), ("bob", "tess", "olga")),
    "/verify": (("cora",), ("alice", "bob", "tess", "olga")),
}


def now(cast: Cast, population: Population) -> Population:
    with cast.work("cora") as work:
        return queries.get_population(work, population.id)


@pytest.mark.parametrize("end", RIGHTS)
def test_the_litany(browse: Browse, cast: Cast, end: str) -> None:
    _, population = opened(cast)
    path, (members, readers) = f"/populations/{population.id}{end}", RIGHTS[end]
    opens_to(browse, path, members)
    for reader in readers:
        browse(reader).get(path, 403)
    hides_from(browse, path, ("dora",) if end == "/verify" else ("charlie", "eve", "dora"))
    asks_to_sign_in(browse, path)
    is_missing(browse, f"/populations/{{}}{end}")
    keeps_its_verbs(browse, path, but=("GET", "POST") if end else ("GET",))


def counted(cast: Cast, population: Population, **more: Any) -> None:
    usual = {
        "counted_on": TODAY,
        "method": CensusMethod.PLOTS,
        "plants": 131,
        "plants_low": 109,
        "plants_high": 162,
    }
    with cast.work("bob") as work:
        actions.record_census(work, population_id=population.id, **usual | more)


def test_it_shows_counts_with_their_interval_and_the_account(browse: Browse, cast: Cast) -> None:
    site, population = opened(cast)
    for year in (2029, 2030, 2031):
        counted(cast, population, counted_on=TODAY.replace(year=year), fruiting_plants=60)
    account = TakeAccount(
        bank_id=site.bank_id,
        site_id=site.id,
        population_id=population.id,
        year=2031,
        allowance_seeds=1240,
        reserved_seeds=400,
        taken_seeds=310,
    )
    with cast.everywhere() as work:
        work.db.add(account)
    page = browse("alice").get(f"/populations/{population.id}")
    for words in (
        "131 plants (between 109 and 162)",
        "60 plants in fruit",
        "1,240 seeds",
        "530 seeds",
        "Plants counted",
    ):
        assert words in page.main


def test_it_names_the_papers_that_are_missing(browse: Browse, cast: Cast) -> None:
    _, population = opened(cast, protected_area=True)
    page = browse("bob").get(f"/populations/{population.id}")
    assert "Nobody may collect here today" in page.main
    assert "the owner’s permission; a permit for this land, which is protected." in page.main


@pytest.mark.parametrize(
    ("care", "sentence"),
    [
        (CareClass.CRITICAL, "it is withheld"),
        (CareClass.RARE, "0.1° wide"),
        (CareClass.WATCH, "0.01° wide"),
        (CareClass.SECURE, "0.001° wide"),
    ],
)
def test_it_says_what_others_see_and_notes_who_read(
    browse: Browse, cast: Cast, care: CareClass, sentence: str
) -> None:
    _, population = opened(cast, care=care)
    page = browse("alice").get(f"/populations/{population.id}")
    assert "47.80000°" in page.main
    assert sentence in page.main
    with cast.everywhere() as work:
        read = select(AuditEntry).where(AuditEntry.event == "locality:read")
        assert len(work.db.scalars(read).all()) == (care is not CareClass.SECURE)


def test_one_is_added(browse: Browse, cast: Cast) -> None:
    site, first = opened(cast)
    window, path = browse("alice"), f"/sites/{site.id}/populations/add"
    answer = window.fill(path, species="Silene acaulis (L.) Jacq.", origin="wild", **PLACE)
    page = window.follow(answer)
    assert page.heading == "SIL-ACA FLG 02"
    assert f"{first.code} is only 0 m away" in page.text
    for reader in ("bob", "tess"):
        browse(reader).get(path, 403)
    hides_from(browse, path)


@pytest.mark.parametrize(
    ("name", "typed", "sentence"),
    [
        ("species", "Draco volans", "No species"),
        ("species", "", "fill this in"),
        ("latitude", "47.9", "km outside Scar Top"),
        ("uncertainty_m", "-1", "from 0 to 5,000 m"),
        ("code", "SIL-ACA FLG 01", "has this code already"),
        ("origin", "the moon", "choose one"),
    ],
)
def test_what_cannot_be_added(browse: Browse, cast: Cast, name: str, typed: str, sentence: str) -> None:
    site, _ = opened(cast)
    fields = {"species": "Silene acaulis", **PLACE, "label": "by the wall", name: typed}
    page = browse("alice").fill(f"/sites/{site.id}/populations/add", status=422, **fields)
    assert sentence in page.beside(name)
    assert page.typed("label") == "by the wall"


def test_a_change_and_a_stale_one(browse: Browse, cast: Cast) -> None:
    _, population = opened(cast)
    path = f"/populations/{population.id}/change"
    browse("alice").fill(path, threat="severe", threat_note="Scrub.")
    assert now(cast, population).threat == "severe"
    page = browse("cora").fill(path, status=422, version="1", threat="none")
    assert "while you were looking" in " ".join(page.problems)


def test_identity_is_verified_by_the_curator(browse: Browse, cast: Cast) -> None:
    _, population = opened(cast)
    path = f"/populations/{population.id}/verify"
    assert "fill this in" in browse("cora").fill(path, status=422).beside("how")
    browse("cora").fill(path, how="Determined from voucher 112.")
    assert now(cast, population).identity_verified
    assert "verified" in browse("alice").get(f"/populations/{population.id}").main


def test_one_is_retired_and_brought_back(browse: Browse, cast: Cast) -> None:
    _, population = opened(cast)
    path = f"/populations/{population.id}"
    browse("alice").fill(f"{path}/retire", reason="Ploughed.")
    assert "Retired on 14 July 2031" in browse("bob").get(path).main
    browse("alice").fill(f"{path}/retire", reason="They were next door.")
    assert now(cast, population).retired_at is None
    keeps_its_verbs(browse, f"{path}/bring-back", but=("POST",))


def test_a_member_counts(browse: Browse, cast: Cast) -> None:
    _, population = opened(cast)
    path = f"/populations/{population.id}/census"
    browse("bob").fill(
        path, method="counted one by one", plants="40", fruiting_plants="30", fruits_per_plant="11.3"
    )
    with cast.work("bob") as work:
        census = queries.latest_census(work, population.id)
        assert census is not None
        assert (census.plants, census.fruiting_plants, census.fruits_per_plant) == (40, 30, 11.3)


@pytest.mark.parametrize(
    ("name", "typed", "sentence"),
    [
        ("plants", "about 40", "whole number"),
        ("plants", "-1", "from 0"),
        ("method", "", "choose one"),
        ("counted_on", "2031-07-15", "still to come"),
        ("plants_low", "30", ""),
        ("fruiting_plants", "41", "No more plants"),
        ("fruits_per_plant", "1,234", "two ways"),
    ],
)
def test_what_cannot_be_counted(browse: Browse, cast: Cast, name: str, typed: str, sentence: str) -> None:
    _, population = opened(cast)
    fields = {"method": "plots", "plants": "40", "note": "windy", name: typed}
    page = browse("bob").fill(f"/populations/{population.id}/census", status=422, **fields)
    assert sentence in page.beside(name)
    assert page.typed("note") == "windy"


def test_its_questions_do_not_grow_with_its_counts(browse: Browse, cast: Cast) -> None:
    _, population = opened(cast)
    window = browse("alice")
    for day in (1, 2, 3):
        counted(cast, population, counted_on=TODAY.replace(day=day))
        window.get(f"/populations/{population.id}")
        # The caller; population, site, species, salvage, counts, account, permits; three of papers.
        assert len(window.queries) == 11


def test_earlier_years_are_said_or_not(browse: Browse, cast: Cast) -> None:
    _, population = opened(cast)
    window, change = browse("alice"), f"/populations/{population.id}/change"
    for typed, kept in ((["2023, 2019"], [2019, 2023]), (["none"], []), ("", None)):
        window.fill(change, years_collected_before=typed)
        with cast.work("alice") as work:
            assert queries.get_population(work, population.id).years_collected_before == kept
        window.fill(change, label="by the stile")
        with cast.work("alice") as work:
            assert queries.get_population(work, population.id).years_collected_before == kept
    for wrong in (["none", "2020"], ["last year"], ["2032"], ["12"]):
        assert window.fill(change, 422, years_collected_before=wrong).beside("years_collected_before")


def test_a_count_keeps_its_sample_and_its_year(browse: Browse, cast: Cast) -> None:
    _, population = opened(cast)
    window, path = browse("alice"), f"/populations/{population.id}/census"
    said = {"plants_counted": "12", "fruits_per_plant": "9.5", "fruits_per_plant_se": "0.7"}
    shares = {"empty_share": "0.2", "immature_share": "0", "poor_year": "no", "disease_seen": "yes"}
    page = window.follow(
        window.fill(path, method="counted one by one", plants="40", fruiting_plants="30", **said, **shares)
    )
    for words in ("(12 plants looked at)", "20% of cut seeds", "not a poor seed year", "disease was seen"):
        assert words in page.main
    with cast.work("alice") as work:
        (census,) = queries.censuses(work, population.id)
        assert (census.plants_counted, census.fruits_per_plant_se, census.poor_year) == (12, 0.7, False)
    for name, wrong in (("empty_share", "20"), ("plants_counted", "31"), ("poor_year", "rather")):
        given = {"method": "counted one by one", "plants": "40", "fruiting_plants": "30", name: wrong}
        assert window.fill(path, 422, **given).beside(name)
