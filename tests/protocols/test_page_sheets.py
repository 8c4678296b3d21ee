"""The list of sheets, its file, what waits for a sheet, and the way there from a printed number."""

from __future__ import annotations

from datetime import timedelta

import pytest

from hub.protocols.actions import withdraw
from hub.sites.models import Population
from hub.taxa.models import Season, Taxon
from tests.protocols.scene import count, current, round_of, set_scene, sheet_for
from tests.support.html import words_in

QUERIES = 11


@pytest.fixture
def scene(cast):
    return set_scene(cast)


def test_a_group_and_its_bank_see_the_sheet(browse, scene):
    for name in ("alice", "bob", "cora", "tess"):
        assert scene.sheet.number in browse(name).get("/sheets").main
    assert "Fell Group" in browse("cora").get("/sheets").main


def test_others_see_none_of_it(browse, scene):
    for name in ("charlie", "dora"):
        page = browse(name).get("/sheets")
        assert scene.sheet.number not in page.text
        assert "No sheets yet" in page.main
    browse("olga").get("/sheets", 403)
    assert "/sign-in" in browse().get("/sheets", 302).location
    browse("alice").post("/sheets", status=405)


@pytest.mark.parametrize(
    ("asked", "found"),
    [
        ({"search": "acaulis"}, True), ({"search": "fell"}, True), ({"search": "S01"}, True),
        ({"search": "gentian"}, False), ({"state": "current"}, True), ({"state": "withdrawn"}, False),
        ({"says": "ready"}, True), ({"says": "stop"}, False), ({"says": "nonsense"}, True),
        ({"season": "2031"}, True), ({"season": "2030"}, False),
    ],
)  # fmt: skip
def test_it_is_searched_and_filtered(browse, scene, asked, found):
    assert (scene.sheet.number in browse("cora").get("/sheets", **asked).main) is found


def season_closed(cast):
    """Yesterday; nothing has gone its round since."""
    with cast.everywhere() as work:
        work.db.get_one(Season, cast.season.id).closes_on = cast.now.date() - timedelta(days=1)


def test_a_sheet_of_a_closed_season_never_looks_ready(browse, cast, scene):
    season_closed(cast)
    page = browse("alice").get("/sheets")
    (row,) = [words for each in page.all("tr") if scene.sheet.number in (words := words_in(each))]
    assert "Season over" in row
    assert "Ready to use" not in row
    sheet = browse("alice").get(f"/sheets/{scene.sheet.id}").main
    assert "The season of 2031 is over." in sheet
    assert "Draw it up again" not in sheet


def test_nothing_waits_for_a_sheet_once_the_season_has_closed(browse, cast, scene):
    with cast.work("cora") as work:
        withdraw(work, sheet_id=scene.sheet.id, reason="A slip.")
    season_closed(cast)
    assert "Waiting for a sheet" not in browse("alice").get("/sheets").main


@pytest.mark.parametrize("sort", ["newest", "oldest", "number", "species-down", "group", "group-down"])
def test_it_is_sorted(browse, scene, sort):
    assert scene.sheet.number in browse("cora").get("/sheets", sort=sort).main


def test_it_is_downloaded_without_places(browse, scene):
    page = browse("cora").get("/sheets", **{"as": "csv"})
    text = page.answer.get_data(as_text=True)
    assert scene.sheet.number in text
    assert "Silene acaulis,Fell Group" in text
    assert "47.8" not in text
    assert "Scar Top" not in text


def test_queries_do_not_grow_with_rows(browse, cast, scene):
    window = browse("cora")
    window.get("/sheets")
    assert len(window.queries) <= QUERIES, "\n".join(window.queries)
    before = len(window.queries)
    for fruiting in (300, 200, 100):
        count(cast, scene.population_id, fruiting=fruiting)
        round_of(cast)
    window.get("/sheets")
    assert len(window.queries) == before
    assert not any("sheet.body" in each for each in window.queries)


def test_what_waits_gets_its_sheet_by_one_press(browse, cast, scene):
    with cast.work("cora") as work:
        withdraw(work, sheet_id=scene.sheet.id, reason="A slip.")
    window = browse("alice")
    action = f"/adoptions/{scene.adoption_id}/populations/{scene.population_id}/sheet"
    assert "Waiting for a sheet" in window.get("/sheets").main
    assert "Waiting for a sheet" not in browse("bob").get("/sheets").main
    page = window.follow(window.press("/sheets", action))
    assert f"Sheet {current(cast, scene).number} is issued." in page.text
    assert "Waiting for a sheet" not in window.get("/sheets").main


@pytest.mark.parametrize("typed", ["{number}", "{small}", "{bare}"])
def test_a_printed_number_leads_to_the_sheet(browse, scene, typed):
    number = scene.sheet.number
    path = typed.format(number=number, small=number.lower(), bare=number.replace("-", ""))
    assert browse("alice").get(f"/sheets/by-number/{path}", 302).location.endswith(str(scene.sheet.id))


@pytest.mark.parametrize(
    "typed", ["FLG-2031-S01-!", "FLG-2031-S0I-A", "x", "%00", "S" * 300, "FLG-2O31-S01-K"]
)
def test_a_mistyped_number_gets_a_kind_sentence(browse, scene, typed):
    page = browse("alice").get(f"/sheets/by-number/{typed}", 404)
    assert "letter by letter" in page.main


def test_a_strangers_number_looks_like_none(browse, cast, scene):
    page = browse("charlie").get(f"/sheets/by-number/{scene.sheet.number}", 404)
    assert "or it belongs to another group" in page.main
    assert "Silene" not in page.text


def test_the_pdfs_open_for_their_own_people(browse, scene):
    for kind, name in (("sheet", scene.sheet.number), ("form", f"{scene.sheet.number}-form")):
        answer = browse("alice").get(f"/sheets/{scene.sheet.id}/{kind}.pdf").answer
        assert answer.mimetype == "application/pdf"
        assert f"{name}.pdf" in answer.headers["Content-Disposition"]
        assert answer.get_data().startswith(b"%PDF")
        browse("charlie").get(f"/sheets/{scene.sheet.id}/{kind}.pdf", 404)
        browse("olga").get(f"/sheets/{scene.sheet.id}/{kind}.pdf", 403)


def test_a_pdf_is_drawn_once(browse, house, scene):
    window = browse("alice")
    first = window.get(f"/sheets/{scene.sheet.id}/sheet.pdf").answer.get_data()
    (kept,) = house.settings.pdf_cache.rglob("*.pdf")
    assert kept.read_bytes() == first
    assert window.get(f"/sheets/{scene.sheet.id}/sheet.pdf").answer.get_data() == first
    assert len(list(house.settings.pdf_cache.rglob("*.pdf"))) == 1


def test_the_second_group_finds_its_part(browse, cast, scene):
    """Of 24,000 seeds the first group's sheet keeps 10,000, so as many are there for the second."""
    with cast.everywhere() as work:
        taxon = work.db.get_one(Taxon, scene.taxon_id)
        population = work.db.get_one(Population, scene.population_id)
    second = sheet_for(cast, taxon, population, lead="charlie")
    assert "10,000 good seeds" in browse("charlie").get(f"/sheets/{second.sheet.id}").main
