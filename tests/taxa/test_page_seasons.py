"""The pages of a bank's seasons."""

from __future__ import annotations

from uuid import uuid4

import pytest

from hub.taxa import queries

DAYS = {"opens_on": "2032-03-01", "closes_on": "2032-11-30", "lapses_on": "2032-09-01"}
PATHS = ("/seasons", "/seasons/new", "/seasons/{}")


def test_a_season_is_opened_and_its_list_is_empty(browse, cast):
    window = browse("cora")
    page = window.follow(window.fill("/seasons/new", year="2032", **DAYS))
    assert "Season 2032 is open" in page.main
    assert "The list is empty" in page.main
    assert "2032" in window.get("/seasons").main


def test_days_are_moved(browse, cast):
    window, path = browse("cora"), f"/seasons/{cast.season.id}"
    assert window.get(path).typed("opens_on") == "2031-03-01"
    window.fill(path, opens_on="2031-04-01")
    with cast.work("cora") as work:
        assert queries.get_season(work, cast.season.id).opens_on.isoformat() == "2031-04-01"


@pytest.mark.parametrize(
    ("box", "typed", "says"),
    [
        ("year", "2031", "already"),
        ("year", "", "fill this in"),
        ("year", "31", "1,990"),
        ("opens_on", "2031-03-01", "must open in that year"),
        ("opens_on", "1 March", "year-month-day"),
        ("closes_on", "2032-02-01", "after it has opened"),
        ("lapses_on", "2032-12-24", "within the season"),
    ],
)
def test_what_is_wrong_stands_beside_its_box(browse, cast, box, typed, says):
    page = browse("cora").fill("/seasons/new", 422, **{"year": "2032", **DAYS, box: typed})
    if (box, typed) == ("year", "2031"):
        assert "2031" in page.beside("opens_on")
    else:
        assert says in page.beside(box)
    with cast.work("cora") as work:
        assert len(queries.seasons(work, cast.fell_bank.id)) == 1


@pytest.mark.parametrize("name", ["alice", "tess", "olga", "stan"])
def test_only_curators_see_them(browse, cast, name):
    for path in PATHS:
        browse(name).get(path.format(cast.season.id), 403)
    browse(name).post("/seasons/new", {"year": "2032", **DAYS}, 403)


def test_a_season_of_another_bank_is_not_there(browse, cast):
    for path in (f"/seasons/{cast.season.id}", f"/seasons/{uuid4()}"):
        browse("dora").get(path, 404)
        browse("dora").post(path, DAYS, 404)


def test_an_empty_list_of_seasons_says_what_to_do(browse, cast):
    with cast.everywhere() as work:
        work.db.delete(work.db.merge(cast.season))
    assert "Open one" in browse("cora").get("/seasons").main


def test_the_list_is_only_read(browse, cast):
    browse("cora").post("/seasons", status=405)
