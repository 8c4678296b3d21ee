"""One sheet on screen: every line answers “why?”, its history is told, and only its own people see it."""

from __future__ import annotations

import re

import pytest

from tests.protocols.scene import count, current, round_of, set_scene

QUERIES = 13


@pytest.fixture
def scene(cast):
    return set_scene(cast)


@pytest.fixture
def path(scene):
    return f"/sheets/{scene.sheet.id}"


def test_it_shows_the_essential_numbers(browse, path, scene):
    page = browse("alice").get(path)
    assert page.heading == f"Sheet {scene.sheet.number}"
    for words in ("Ready to use", "1 in 10", "500 ripe fruits", "or 10,000 good seeds", "50 mother plants"):
        assert words in page.main


def test_every_line_answers_why(browse, path):
    page = browse("alice").get(path)
    reasons = [each for each in page.all("details") if each.get("class") == "why"]
    lines = [each for each in page.all("ul") if "sheet-lines" in each.get("class", "")]
    assert len(reasons) > sum(len(list(each)) for each in lines) > 30
    for words in ("Ground:", "Decided by:", "Rules:", "Our own default", "Published"):
        assert words in page.main


@pytest.mark.parametrize(
    ("version", "words"), [("plain", "Write with a pencil."), ("large", "Write in pencil.")]
)
def test_it_can_be_read_in_other_ways(browse, path, version, words):
    assert words in browse("alice").get(path, version=version).main


def test_a_version_that_does_not_exist_is_the_full_one(browse, path):
    assert "Write in pencil." in browse("alice").get(path, version="tiny").main


def test_its_history_tells_what_changed(browse, cast, path, scene):
    count(cast, scene.population_id, fruiting=200)
    round_of(cast)
    old, new = browse("alice").get(path), browse("alice").get(f"/sheets/{current(cast, scene).id}")
    assert "This sheet holds no longer" in old.main
    assert "Seeds your group may take: 10,000 before, 6,000 now." in new.text
    assert "The plants were counted again." in new.text


def test_drawing_it_up_again_without_a_change_keeps_it(browse, path, scene):
    window = browse("alice")
    action = f"/adoptions/{scene.adoption_id}/populations/{scene.population_id}/sheet"
    page = window.follow(window.press(path, action))
    assert f"Nothing has changed: sheet {scene.sheet.number} still holds." in page.text


def test_the_bank_sees_it_and_a_member_reads_it(browse, path):
    for name in ("cora", "tess", "bob"):
        assert "1 in 10" in browse(name).get(path).main


def test_others_do_not(browse, path):
    for name, status in (("charlie", 404), ("eve", 404), ("dora", 404), ("olga", 403)):
        browse(name).get(path, status)
    assert "/sign-in" in browse().get(path, 302).location


def test_a_member_may_not_issue(browse, scene):
    browse("bob").post(f"/adoptions/{scene.adoption_id}/populations/{scene.population_id}/sheet", status=403)


def test_a_stranger_cannot_issue(browse, scene):
    for name in ("charlie", "eve", "dora"):
        browse(name).post(
            f"/adoptions/{scene.adoption_id}/populations/{scene.population_id}/sheet", status=404
        )


def test_wrong_verb_and_unknown_sheet(browse, path):
    browse("alice").post(path, status=405)
    browse("alice").get("/sheets/00000000-0000-4000-8000-000000000000", 404)


def test_the_curator_takes_it_back_with_a_reason(browse, path, cast, scene):
    cora = browse("cora")
    assert "Please fill this in." in cora.fill(f"{path}/withdraw", 422, reason="").beside("reason")
    page = cora.follow(cora.fill(f"{path}/withdraw", reason="The fence is down."))
    assert "This sheet was taken back" in page.main
    assert current(cast, scene) is None
    browse("alice").get(f"{path}/withdraw", 403)
    browse("dora").get(f"{path}/withdraw", 404)


def test_no_position_stands_on_it(browse, path):
    assert not re.search(r"47\.8|-28\.2", browse("alice").get(path).main)


def test_queries_do_not_grow_with_its_history(browse, cast, path, scene):
    window = browse("alice")
    window.get(path)
    assert len(window.queries) <= QUERIES, "\n".join(window.queries)
    for fruiting in (300, 200):
        count(cast, scene.population_id, fruiting=fruiting)
        round_of(cast)
    window.get(f"/sheets/{current(cast, scene).id}")
    assert len(window.queries) <= QUERIES + 1  # the sheet before it, for what changed
