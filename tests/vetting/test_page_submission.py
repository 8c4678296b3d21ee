"""The group's list of hand-ins, and one of them with its revisions and what the bank answered."""

from __future__ import annotations

from uuid import uuid4

import pytest

from hub.vetting import actions, queries
from tests.vetting.scene import begun, collection, handed_in, sent_back, set_scene, stands

LIST = "/hand-ins"


@pytest.fixture
def scene(cast):
    return set_scene(cast)


def test_an_empty_list_says_what_to_do(browse):
    page = browse("alice").get(LIST)
    assert "No hand-ins yet" in page.main
    assert "/hand-ins/new" in page.links


def test_the_list_is_searched_filtered_sorted_and_downloaded(browse, cast, scene):
    draft, waiting = begun(cast, scene), handed_in(cast, scene)
    numbers = {each: stands(cast, each).number for each in (draft, waiting)}
    bob = browse("bob")
    whole = bob.get(LIST)
    assert all(number in whole.main for number in numbers.values())
    only = bob.get(LIST, state="handed in").main
    assert numbers[waiting] in only
    assert numbers[draft] not in only
    assert numbers[draft] not in bob.get(LIST, search="nowhere").main
    assert numbers[draft] in bob.get(LIST, search="moss camp", taxon=str(scene.taxon_id)).main
    up, down = (bob.get(LIST, sort=order).main for order in ("number", "number-down"))
    assert up.index(numbers[draft]) < up.index(numbers[waiting])
    assert down.index(numbers[draft]) > down.index(numbers[waiting])
    sheet = bob.client.get(LIST, query_string={"as": "csv"}).get_data(as_text=True)
    assert f"{numbers[waiting]},Silene acaulis" in sheet
    assert sheet.count("\r\n") == 3


def test_nonsense_filters_are_left_out_and_said(browse, cast, scene):
    begun(cast, scene)
    page = browse("alice").get(LIST, state="lost", taxon="x", sort="colour")
    assert "“lost” cannot be used for State" in page.text


def test_a_group_sees_its_own_hand_ins_alone(browse, cast, scene):
    number = stands(cast, handed_in(cast, scene)).number
    for stranger in ("charlie", "eve"):
        assert number not in browse(stranger).get(LIST).text


def test_what_the_bank_chose_to_show_is_shown_and_nothing_else(browse, cast, scene):
    submission_id = handed_in(cast, scene, total_seeds=900_000)
    with cast.work("cora") as work:
        found = queries.findings(work, queries.get(work, submission_id))
        shown, hidden = found[0], found[1]
        actions.send_back(work, submission_id=submission_id, remarks="Look again.", finding_ids=[shown.id])
    page = browse("alice").get(f"{LIST}/{submission_id}").main
    words = {each.id: each.words["text"].split("{")[0].strip() for each in (shown, hidden)}
    assert "Look again." in page
    assert words[shown.id] in page
    assert words[hidden.id] not in page
    assert "Mend it and hand it in again" in page


def test_the_difference_between_revisions_is_shown(browse, cast, scene):
    submission_id = sent_back(cast, scene)
    with cast.work("alice") as work:
        actions.hand_in(work, submission_id=submission_id, data=collection(total_seeds=2500))
    page = browse("bob").get(f"{LIST}/{submission_id}").main
    assert "Revision 2, handed in on" in page
    assert "Seeds handed in2,400 seeds2,500 seeds" in page.replace(" 2,", "2,")


@pytest.mark.parametrize("page", ["", "/new"])
def test_who_may_open_the_list(browse, page):
    for name in ("cora", "tess", "dora", "olga", "stan"):
        browse(name).get(LIST + page, status=403)
    assert browse().get(LIST + page, status=302).location.startswith("/sign-in")
    browse("alice").get(f"{LIST}/{uuid4()}", status=404)


def test_the_queries_of_the_list_do_not_grow_with_rows(browse, cast, scene):
    alice = browse("alice")
    begun(cast, scene)
    alice.get(LIST)
    few = len(alice.queries)
    for _ in range(5):
        begun(cast, scene)
    alice.get(LIST)
    assert len(alice.queries) == few == 3


def test_the_queries_of_one_page_are_few(browse, cast, scene):
    submission_id = sent_back(cast, scene)
    alice = browse("alice")
    alice.get(f"{LIST}/{submission_id}")
    assert len(alice.queries) == 9
