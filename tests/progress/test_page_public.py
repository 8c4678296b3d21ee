"""What visitors see: what the hub is for and how far the region has got, never a group, never a locality."""

from __future__ import annotations

import pytest

from hub.adoptions.rules import Stage
from hub.groups.models import Bank, Region
from hub.taxa.models import Season
from hub.taxa.rules import CareClass
from tests.accessions.scene import banked
from tests.cast import Cast
from tests.progress.board import count, plant, want
from tests.support.browser import Browse
from tests.support.html import words_in

PATH = "/progress-public"
QUERIES = 6


def test_it_says_what_the_hub_is_for_and_leads_on(cast: Cast, browse: Browse) -> None:
    visitor = browse()
    page = visitor.follow(visitor.get("/", status=302))
    assert "A seed bank keeps some of their seed alive" in page.main
    for path in ("/wanted", "/join", "/sign-in"):
        assert path in page.links


def test_it_shows_how_far_the_region_has_got(cast: Cast, browse: Browse) -> None:
    campion, elm = plant(cast, "Silene acaulis"), plant(cast, "Ulmus glabra")
    want(cast, campion, (1, None))
    want(cast, elm, (2, cast.south.id))
    count(cast, campion, cast.north.id, Stage.BANKED, 1)
    page = browse().get(PATH)
    for words in ("Wanted 2 species", "Taken on by groups 1 adoption", "Safe in the bank 1 species",
                  "Still need a group 2 populations", "Northern Part", "1/1"):  # fmt: skip
        assert words in page.main, words
    assert f"/plants/{campion}" in page.links
    assert f"/plants/{elm}" not in page.links


def test_no_group_and_no_locality_is_told(cast: Cast, browse: Browse) -> None:
    banked(cast)
    page = browse().get(PATH)
    assert "Taken on by groups 1 adoption" in page.main
    for secret in (
        "Fell Group",
        "Vale School",
        "Scar Top",
        "by the wall",
        "SIL-ACA",
        "47.8",
        "28.2",
        "FELL-2031",
    ):
        assert secret not in page.html, secret


def test_it_costs_the_same_for_five_hundred_adoptions_as_for_ten(cast: Cast, browse: Browse) -> None:
    taxa = [plant(cast, f"Genus species{chr(97 + at)}") for at in range(26)]
    count(cast, taxa[0], cast.north.id, Stage.ADOPTED, 10)
    visitor = browse()
    visitor.get(PATH)
    assert len(visitor.queries) == QUERIES
    for taxon in taxa:
        count(cast, taxon, cast.south.id, Stage.BANKED, 20)
    page = visitor.get(PATH)
    assert len(visitor.queries) == QUERIES
    assert "and 2 more species" in page.main


def test_before_any_season_it_still_welcomes(cast: Cast, browse: Browse) -> None:
    with cast.everywhere() as work:
        for season in (cast.season, cast.far_season):
            work.db.delete(season)
    assert "No season is open yet" in browse().get(PATH).main


@pytest.mark.parametrize("query", [{"region": "NONE"}, {"year": "soon"}, {"year": "1999"}, {"region": "'"}])
def test_what_the_address_cannot_mean_shows_the_usual(browse: Browse, query: dict[str, str]) -> None:
    assert "How far we are in 2031" in browse().get(PATH, **query).main


def test_another_region_and_another_year_can_be_chosen(cast: Cast, browse: Browse) -> None:
    with cast.everywhere() as work:
        other = Region(code="OTH", name="Other Vale")
        work.db.add(other)
        work.db.flush()
        bank = Bank(region_id=other.id, code="OTHB", name="Other Bank", email="o@bank.example", address="")
        work.db.add(bank)
        work.db.flush()
        days = {
            name: getattr(cast.season, name).replace(year=2030)
            for name in ("opens_on", "closes_on", "lapses_on")
        }
        for bank_id in (bank.id, cast.fell_bank.id):
            work.db.add(Season(bank_id=bank_id, year=2030, **days))
    visitor = browse()
    assert "How far we are in 2030" in visitor.get(PATH, region="TST", year="2030").main
    page = visitor.get(PATH, region="OTH")
    assert "Other Vale" in page.main
    assert any("region=TST" in link for link in page.links)


def test_whoever_is_signed_in_may_look_too_and_nobody_posts(browse: Browse) -> None:
    for name in ("alice", "cora", "olga", "stan"):
        assert "/join" not in browse(name).get(PATH).links
    browse("olga").post(PATH, status=405)


def test_the_largest_region_comes_first_whatever_its_name(cast: Cast, browse: Browse) -> None:
    with cast.everywhere() as work:
        small = Region(code="AAA", name="Aaa Isle")
        work.db.add(small)
        work.db.flush()
        bank = Bank(region_id=small.id, code="AAAB", name="Aaa Bank", email="a@bank.example", address="")
        work.db.add(bank)
        work.db.flush()
        days = {name: getattr(cast.season, name) for name in ("opens_on", "closes_on", "lapses_on")}
        season = Season(bank_id=bank.id, year=2031, **days)
        work.db.add(season)
    page = browse().get(PATH)
    assert {words_in(each) for each in page.all("a") if each.get("aria-current") == "true"} == {"Test Vale"}
    other = browse().get(PATH, region="AAA")
    assert {words_in(each) for each in other.all("a") if each.get("aria-current") == "true"} == {"Aaa Isle"}
    assert f"/wanted?season={season.id}" in other.links
    assert f"/progress-public?region={small.id}" in browse().get(f"/wanted?season={season.id}").links
    assert "Aaa Isle" in browse().get(PATH, region=str(small.id)).main


def test_the_district_of_what_is_kept_back_is_not_counted(cast: Cast, browse: Browse) -> None:
    gentian = plant(cast, "Gentiana verna", care_class=CareClass.CRITICAL)
    want(cast, gentian, (1, cast.north.id))
    count(cast, gentian, cast.north.id, Stage.BANKED, 1)
    text = browse().get(PATH).main
    assert "Taken on by groups 1 adoption" in text
    assert "1 adoption is of a species whose places are kept back" in text
    assert "1/1" not in text
    assert "1/1" in browse("olga").get("/progress").main
