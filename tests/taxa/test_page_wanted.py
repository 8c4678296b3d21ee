"""The public wanted list: read by everybody, narrowed in many ways, and it tells no locality."""

from __future__ import annotations

import csv
import io

import pytest

from hub.taxa import actions
from hub.taxa.actions import NeedGiven
from hub.taxa.wanted_file import read_wanted
from tests.support.html import words_in
from tests.taxa.garden import ARNICA, CAMPION, list_of, plant

VISITOR_QUERIES = 5  # seasons, districts, ecoregions, lines, needs
SIGNED_IN_QUERIES = VISITOR_QUERIES + 1  # and who is asking


def test_it_works(browse, cast):
    plant(cast, CAMPION)
    (taxon,) = list_of(cast, ARNICA, needs=[NeedGiven(2, cast.meadows.id, cast.north.id), NeedGiven(1)])
    page = browse().get("/wanted")
    assert page.heading == "Wanted list 2031"
    assert "2 populations from Northern Part, ecoregion Meadows" in page.main
    assert "1 population from anywhere in the region" in page.main
    assert "Silene" not in page.main
    assert f"/plants/{taxon.id}" in page.links
    assert not any("/seasons/" in link for link in page.links)


def test_its_own_curator_finds_the_ways_to_change_it(browse, cast):
    (taxon,) = list_of(cast, ARNICA)
    links = browse("cora").get("/wanted").links
    assert f"/seasons/{cast.season.id}/wanted/{taxon.id}" in links
    assert f"/seasons/{cast.season.id}/import" in links
    for name in ("alice", "tess", "dora", "olga", "stan"):
        other = browse(name).get("/wanted", season=cast.season.id)
        assert not any(str(cast.season.id) in link and "/seasons/" in link for link in other.links)


def test_members_see_the_list_of_their_own_bank(browse, cast):
    list_of(cast, ARNICA)
    assert "Fell Bank" in browse("alice").get("/wanted").main
    assert "The list is empty" in browse("eve").get("/wanted").main
    assert "Arnica" in browse("eve").get("/wanted", season=cast.season.id).main


def test_without_seasons_it_says_so(browse, cast):
    with cast.everywhere() as work:
        for season in (cast.season, cast.far_season):
            work.db.delete(work.db.merge(season))
    assert "No season yet" in browse().get("/wanted").main
    assert "/seasons/new" in browse("cora").get("/wanted").links
    assert "/seasons/new" not in browse("alice").get("/wanted").links


@pytest.mark.parametrize(
    ("query", "found"),
    [
        ({"search": "SILENE jacq"}, {"Silene"}),
        ({"search": "moss campion"}, {"Silene"}),
        ({"search": "nothing"}, set()),
        ({"care": "critical"}, set()),
        ({"care": "unknown"}, {"Silene", "Arnica"}),
        ({"care": "nonsense"}, {"Silene", "Arnica"}),
        ({"difficulty": "easy"}, {"Silene"}),
        ({"school": "yes"}, {"Silene"}),
        ({"needed": "yes"}, {"Silene", "Arnica"}),
        ({"district": "nonsense"}, {"Silene", "Arnica"}),
        ({"season": "nonsense"}, {"Silene", "Arnica"}),
    ],
)
def test_it_can_be_narrowed(browse, cast, query, found):
    list_of(cast, ARNICA)
    (campion,) = plant(cast, CAMPION, difficulty="easy", suits_school=True, vernacular="Moss campion")
    with cast.work("cora") as work:
        actions.want(work, season_id=cast.season.id, taxon_id=campion.id, needs=[NeedGiven(1)])
    page = browse().get("/wanted", **query)
    assert {name for name in ("Silene", "Arnica") if f"{name} " in page.main} == found


@pytest.mark.parametrize("sort", ["priority", "name", "ripening", "difficulty", "care", "nonsense"])
def test_it_can_be_sorted_and_paged(browse, cast, sort):
    names = [
        f"Carex {prefix}{middle}a"
        for prefix in "abcdefgh"
        for middle in ("lb", "mn", "rt", "sp", "tr", "vl", "xc")
    ]
    list_of(cast, *names)
    page, seen = browse().get("/wanted", sort=sort), []
    for _ in range(2):
        seen += [name for name in names if name in page.main]
        further = [link for link in page.links if "at=" in link]
        page = browse().get(further[-1])
    assert sorted(seen) == sorted(names)


def test_the_number_of_queries_does_not_grow(browse, cast):
    visitor, alice = browse(), browse("alice")
    list_of(cast, ARNICA)
    visitor.get("/wanted")
    assert len(visitor.queries) == VISITOR_QUERIES
    list_of(
        cast,
        *[f"Carex {letter}lba" for letter in "abcdefgh"],
        needs=[NeedGiven(1), NeedGiven(2, cast.meadows.id)],
    )
    visitor.get("/wanted")
    alice.get("/wanted")
    assert (len(visitor.queries), len(alice.queries)) == (VISITOR_QUERIES, SIGNED_IN_QUERIES)


def test_its_csv_can_be_taken_in_again(browse, cast):
    list_of(cast, ARNICA, CAMPION, needs=[NeedGiven(2, cast.meadows.id), NeedGiven(1, None, cast.north.id)])
    answer = browse().get("/wanted", **{"as": "csv"}).answer
    found = read_wanted(answer.data)
    assert (found.problems, found.remarks) == ([], [])
    assert len(found.rows) == 4
    head, first, *_ = csv.reader(io.StringIO(answer.data.decode("utf-8-sig")))
    assert dict(zip(head, first, strict=True))["care_class"] == "unknown"


def test_it_is_only_read(browse, cast):
    browse().post("/wanted", status=405)


def test_notes_of_two_needs_stand_on_lines_of_their_own(browse, cast):
    (taxon,) = plant(cast, ARNICA)
    with cast.work("cora") as work:
        actions.want(
            work,
            season_id=cast.season.id,
            taxon_id=taxon.id,
            needs=[NeedGiven(1)],
            note="Before the mowing\nBlue ones only",
        )
    page = browse().get("/wanted")
    assert {"Before the mowing", "Blue ones only"} <= {words_in(each) for each in page.all("li")}
