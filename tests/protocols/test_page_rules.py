"""The rulebook for all who are signed in, a bank's changes of it, and trying it out."""

from __future__ import annotations

from datetime import timedelta

import pytest

from hub.protocols.rulebook_reader import standard_rulebook
from hub.protocols.trying import BLANK, BOXES, TrySchema, case_from, filled
from tests.protocols.conftest import DAY, changed
from tests.protocols.scene import TODAY, current, round_of, set_scene

RULES_QUERIES = 4
LIST_QUERIES = 6
CHANGE = "/rules/take.secure/season_share/change"
UNTIL = (TODAY + timedelta(days=60)).isoformat()
GOOD = {"value": "5", "reason": "A dry spring.", "evidence": "", "ends_on": UNTIL}


def test_everybody_signed_in_reads_every_rule(browse):
    for name in ("bob", "tess", "olga", "stan"):
        page = browse(name).get("/rules")
        assert all(rule.title in page.main for rule in standard_rulebook().rules)
    assert "/sign-in" in browse().get("/rules", 302).location
    browse("alice").post("/rules", status=405)


def test_a_rule_tells_when_what_why_and_who(browse):
    page = browse("alice").get("/rules", search="take.secure")
    for words in ("Common plants: a tenth", "Care class, the most careful of all ranks: secure",
                  "Plants that bear fruit this season: 50 or more", "10%", "a curator may go to 20%",
                  "Our own default", "since 1 January 2020"):  # fmt: skip
        assert words in page.main
    assert "Change for our bank" not in page.main


def of_topic(topic):
    return {rule.id for rule in standard_rulebook().rules if rule.topic == topic}


@pytest.mark.parametrize(("asked", "rules"), [
    ({"search": "moist.acorn"}, {"moist.acorn"}), ({"topic": "seasons"}, of_topic("seasons")),
    ({"topic": "take", "search": "curator’s OWN limit"}, {"take.signed"}),
    ({"search": "no such words"}, set()), ({"topic": "no such topic"}, set()),
])  # fmt: skip
def test_it_is_searched_and_filtered(browse, asked, rules):
    page = browse("alice").get("/rules", **asked)
    assert {each.get("id") for each in page.all("article") if each.get("class") == "rule"} == rules


def test_reading_it_asks_the_store_for_nothing_but_the_reader(browse):
    window = browse("alice")
    window.get("/rules")
    assert len(window.queries) <= RULES_QUERIES, "\n".join(window.queries)


def test_a_change_is_made_seen_and_ended(browse, cast):
    scene = set_scene(cast)
    cora = browse("cora")
    form = cora.get(CHANGE)
    assert "The rule says 10%. You may loosen it to 20%." in form.main
    page = cora.follow(cora.fill(CHANGE, **GOOD))
    assert "10% → 5%" in page.main
    assert "A dry spring." in cora.get("/rules/changes", **{"as": "csv"}).answer.get_data(as_text=True)
    assert round_of(cast) == 1
    sheet = browse("alice").get(f"/sheets/{current(cast, scene).id}")
    assert "Where the bank has changed a rule" in sheet.main
    (link,) = (each for each in page.links if each.endswith("/end"))
    assert "Please fill this in." in cora.fill(link, 422, reason="").beside("reason")
    cora.fill(link, reason="It rained.")
    assert round_of(cast) == 1
    assert "ended on" in cora.get("/rules/changes").main
    assert "No change is like that" in cora.get("/rules/changes", holds="yes").main
    assert cora.fill(link, 422, reason="Twice.").problems


@pytest.mark.parametrize(("change", "box", "words"), [
    ({"value": "25", "evidence": "a count"}, "value", "at most"),
    ({"value": "15"}, "value", "needs evidence"),
    ({"value": ""}, "value", "Please give the new figure."),
    ({"value": "x"}, "value", "Please give a number"),
    ({"value": "500"}, "value", "cannot be changed"),
    ({"reason": ""}, "reason", "Please fill this in."),
    ({"ends_on": ""}, "ends_on", "Please fill this in."),
    ({"ends_on": "2031-02-30"}, "ends_on", "Please give a day"),
    ({"ends_on": "2020-01-01"}, "value", "This change holds from"),
    ({"taxon_id": "x"}, "taxon_id", "Please choose"),
])  # fmt: skip
def test_what_no_curator_may_do_is_refused_beside_its_box(browse, change, box, words):
    page = browse("cora").fill(CHANGE, 422, **(GOOD | change))
    assert words in page.beside(box)
    assert page.typed("reason") == (GOOD | change)["reason"]
    assert "No rule is changed" in browse("cora").get("/rules/changes").main


def test_a_rule_without_a_number_is_set_aside_whole(browse):
    path = "/rules/stop.not-native/verdict/change"
    cora = browse("cora")
    assert "sets it aside" in cora.get(path).main
    page = cora.follow(cora.fill(path, reason="Old record.", evidence="Herbarium 12", ends_on=UNTIL))
    assert "stop → the rule is set aside" in page.main


@pytest.mark.parametrize("path", [
    "/rules/no.rule/season_share/change", "/rules/take.secure/verdict/change",
    "/rules/stop.gone/verdict/change", "/rules/changes/00000000-0000-4000-8000-000000000000/end",
])  # fmt: skip
def test_what_cannot_be_changed_is_not_there(browse, path):
    browse("cora").get(path, 404)


@pytest.mark.parametrize("path", [CHANGE, "/rules/changes", "/rules/try"])
def test_only_curators_change_and_try(browse, path):
    for name in ("alice", "bob", "tess", "olga"):
        browse(name).get(path, 403)
    assert "/sign-in" in browse().get(path, 302).location


def test_a_bank_sees_its_own_changes_alone(browse):
    browse("cora").fill(CHANGE, **GOOD)
    assert "No rule is changed" in browse("dora").get("/rules/changes").main
    window = browse("cora")
    window.get("/rules/changes")
    assert len(window.queries) <= LIST_QUERIES, "\n".join(window.queries)


def test_facts_are_tried_and_nothing_is_kept(browse, cast):
    scene = set_scene(cast)
    path = f"/rules/try?sheet={scene.sheet.id}"
    cora = browse("cora")
    assert "Ready to use" in cora.get(path).main
    page = cora.fill(path, 200, fruiting_plants="12", plants="12")
    assert "fewer than 20 plants bear fruit here" in page.main
    assert page.typed("fruiting_plants") == "12"
    assert current(cast, scene).id == scene.sheet.id


@pytest.mark.parametrize(("box", "typed"), [
    ("fruiting_plants", "many"), ("empty_share", "101"), ("care_class", "odd"), ("species", ""),
    ("native", "perhaps"), ("good_seeds_per_fruit", "1e400"),
])  # fmt: skip
def test_facts_that_make_no_sense_are_told_beside_their_box(browse, box, typed):
    page = browse("cora").fill("/rules/try", 422, **{box: typed})
    assert page.beside(box)


def test_another_banks_sheet_cannot_be_tried(browse, cast):
    scene = set_scene(cast)
    browse("dora").get(f"/rules/try?sheet={scene.sheet.id}", 404)
    browse("cora").get("/rules/try?sheet=nonsense")


@pytest.mark.parametrize("case", [BLANK, changed({}), changed({"taxon": {"hazards": ["toxic"]}})])
def test_the_boxes_hold_the_case_and_give_it_back(case):
    typed = filled(case)
    again = case_from(case, {**TrySchema().load({"species": typed["species"]}), **typed}, DAY)
    assert filled(again) == typed
    assert {box.name for box in BOXES} <= typed.keys()
