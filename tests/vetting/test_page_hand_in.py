"""A collection is written down, kept, looked over and handed in."""

from __future__ import annotations

from uuid import uuid4

import pytest

from hub.groups.models import Crew
from hub.groups.rules import AgeBand
from hub.vetting import queries
from hub.vetting.rules import SubmissionState
from tests.vetting.scene import begun, collection, handed_in, in_bulk, sent_back, set_scene, stands
from tests.vetting.typing import typed

KEY = "a key made with the page"


@pytest.fixture
def scene(cast):
    return set_scene(cast)


@pytest.fixture
def draft(cast, scene):
    return begun(cast, scene)


def at(submission_id, page):
    return f"/hand-ins/{submission_id}/{page}".rstrip("/")


def keep(window, draft, **boxes):
    return window.fill(at(draft, "write"), **typed(**boxes), do="keep")


def test_a_collection_goes_all_the_way_in(browse, scene):
    alice = browse("alice")
    path = alice.fill("/hand-ins/new", sheet_id=scene.sheet.id).location
    assert alice.get(path).typed("container") == "paper_bag"  # as the sheet asks
    looked = alice.follow(alice.fill(path, **typed(), do="review"))
    assert looked.heading.startswith("Look over FLG-2031-0001-")
    assert "2,410 of the " in looked.main
    assert "a photograph of the habitat" in looked.main
    submission_id = path.split("/")[2]
    hand_in = at(submission_id, "hand-in")
    after = alice.follow(alice.press(at(submission_id, "review"), hand_in))
    assert "Fell Bank" in after.main
    assert "By 19 Jul 2031, 12:15" in after.main
    assert "A60" in alice.get(f"/hand-ins/{submission_id}").main


def test_beginning_twice_from_one_page_begins_once(browse, scene):
    alice = browse("alice")
    fields = {"sheet_id": scene.sheet.id, "sent_key": KEY}
    assert alice.post("/hand-ins", fields).location == alice.post("/hand-ins", fields).location


def test_the_page_names_open_drafts_before_it_begins_another(browse, cast, scene, draft):
    page = browse("bob").get("/hand-ins/new")
    assert at(draft, "write") in page.links
    assert scene.sheet.number in page.main


def test_without_any_sheet_the_page_says_what_comes_first(browse):
    assert "Every collection is made under a protocol sheet." in browse("charlie").get("/hand-ins/new").main


@pytest.mark.parametrize("fields", [{}, {"sheet_id": "x", "sent_key": KEY}, {"sent_key": "short"}])
def test_beginning_with_a_torn_form_is_refused(browse, scene, fields):
    assert browse("alice").post("/hand-ins", fields, status=422).problems


def test_what_is_typed_is_kept_as_it_is_also_when_it_is_wrong(browse, draft):
    alice = browse("alice")
    wrong = {"people": "many", "collected_on": "last week", "tallies-7-flag": "B7", "notes": " two  spaces "}
    alice.fill(at(draft, "write"), **wrong, do="keep")
    form = alice.get(at(draft, "write"))
    assert {name: form.typed(name) for name in wrong} == wrong
    refused = alice.get(at(draft, "review"), status=422)
    assert refused.beside("people") == "Problem: Please give a whole number in digits, such as 40."
    assert refused.beside("collected_on").startswith("Problem: Please give a day of the calendar")
    assert refused.typed("people") == "many"


def test_more_rows_are_added_without_any_script(browse, draft):
    alice = browse("alice")
    more = alice.follow(alice.fill(at(draft, "write"), **{"tallies-0-flag": "A1"}, do="rows"))
    assert more.typed("tallies-0-flag") == "A1"
    assert more.typed("tallies-10-flag") == ""


def test_the_tallies_are_summed_up(browse, draft):
    alice = browse("alice")
    keep(alice, draft)
    assert "So far: 60 mothers, 120 fruits, 2,400 seeds." in alice.get(at(draft, "write")).main


def test_a_mistake_in_one_row_stands_beside_its_box(browse, draft):
    alice = browse("alice")
    keep(alice, draft, **{"tallies-3-fruits_taken": "-2", "tallies-5-flag": "A1"})
    refused = alice.get(at(draft, "review"), status=422)
    assert refused.beside("tallies-3-fruits_taken")
    keep(alice, draft, **{"tallies-5-flag": "A1"})
    assert "same flag: a1" in alice.get(at(draft, "review"), status=422).beside("tallies")


def test_seed_in_bulk_needs_no_tallies(browse, draft):
    alice = browse("alice")
    alice.fill(at(draft, "write"), **typed(in_bulk()), do="review")
    looked = alice.get(at(draft, "review")).main
    assert "60 plants" in looked
    assert "Mother" not in looked


def test_more_than_the_sheet_allows_can_be_handed_in_but_is_said(browse, draft):
    alice = browse("alice")
    keep(alice, draft, total_seeds="25000")
    assert "This is more than your sheet allows." in alice.get(at(draft, "review")).main


def test_what_was_handed_in_under_the_sheet_before_counts_in_the_share(browse, cast, scene, draft):
    handed_in(cast, scene)
    alice = browse("alice")
    keep(alice, draft)
    looked = alice.get(at(draft, "review")).main
    assert "4,820 of the " in looked
    assert "2,410 seeds were handed in under this sheet before" in looked


def test_crews_of_the_group_are_offered_and_shown_by_nickname(browse, cast, draft):
    with cast.work("alice") as work:
        crew = Crew(
            group_id=cast.fell_group.id, bank_id=cast.fell_bank.id, nickname="Swifts", headcount=9,
            age_band=AgeBand.FROM_8, teacher_seat_id=cast.seats["alice"].id,
        )  # fmt: skip
        work.db.add(crew)
    alice = browse("alice")
    keep(alice, draft, crew_id=str(crew.id))
    assert "CrewSwifts" in alice.get(at(draft, "review")).main
    keep(alice, draft, crew_id=str(uuid4()))
    assert "one of your own crews" in alice.get(at(draft, "review"), status=422).beside("crew_id")


def test_a_stale_draft_is_not_written_over_unseen(browse, cast, draft):
    alice, bob = browse("alice"), browse("bob")
    seen = alice.get(at(draft, "write")).typed("version")
    keep(bob, draft, notes="Bob was here")
    clash = alice.post(at(draft, "write"), {**typed(notes="Alice too"), "version": seen}, status=422)
    assert "Somebody else wrote on this meanwhile" in clash.problems[0]
    assert clash.typed("notes") == "Alice too"
    alice.post(at(draft, "write"), {**typed(notes="Alice too"), "version": clash.typed("version")})
    assert alice.get(at(draft, "write")).typed("notes") == "Alice too"


def test_keeping_by_itself_answers_with_the_next_version(browse, draft):
    alice = browse("alice")
    version = alice.get(at(draft, "write")).typed("version")
    kept = alice.post(at(draft, "keep"), {"notes": "half a wo", "version": version}, status=200)
    assert kept.answer.json == {"version": int(version) + 1, "said": "Kept at 09:30."}
    stale = alice.post(at(draft, "keep"), {"notes": "x", "version": version}, status=409)
    assert "Somebody else wrote" in stale.answer.json["said"]


def test_handing_in_something_changed_since_it_was_looked_at_is_refused(browse, cast, draft):
    alice = browse("alice")
    keep(alice, draft)
    seen = alice.get(at(draft, "review")).typed("version")
    keep(browse("bob"), draft, people="9")
    refused = alice.post(at(draft, "hand-in"), {"version": seen}, status=422)
    assert "changed after you looked" in refused.problems[0]
    assert stands(cast, draft).state is SubmissionState.DRAFT


def test_handing_in_twice_from_one_page_leads_to_the_same_place(browse, cast, draft):
    alice = browse("alice")
    keep(alice, draft)
    fields = {"version": alice.get(at(draft, "review")).typed("version")}
    first = alice.post(at(draft, "hand-in"), fields)
    assert alice.post(at(draft, "hand-in"), fields).location == first.location == at(draft, "handed-in")
    assert stands(cast, draft).revision == 1


def test_what_was_sent_back_begins_with_what_was_handed_in(browse, cast, scene):
    submission_id = sent_back(cast, scene)
    alice = browse("alice")
    form = alice.get(at(submission_id, "write"))
    assert (form.typed("tallies-59-flag"), form.typed("total_seeds")) == ("A60", "2400")
    alice.fill(at(submission_id, "write"), total_seeds="2500", do="review")
    alice.press(at(submission_id, "review"), at(submission_id, "hand-in"))
    with cast.work("alice") as work:
        second = queries.collection_of(queries.revisions(work, submission_id)[1])
    assert second == collection(total_seeds=2500)


def test_a_draft_is_withdrawn_after_a_question(browse, cast, draft):
    alice = browse("alice")
    assert "stays in your list" in alice.get(at(draft, "withdraw")).main
    alice.press(at(draft, "withdraw"), at(draft, "withdraw"))
    assert stands(cast, draft).state is SubmissionState.WITHDRAWN
    assert alice.get(at(draft, "write"), status=302).location == f"/hand-ins/{draft}"


def test_once_handed_in_the_form_is_closed_and_typing_is_not_lost_from_the_screen(browse, cast, scene):
    submission_id = handed_in(cast, scene)
    alice = browse("alice")
    assert alice.get(at(submission_id, "write"), status=302).location == f"/hand-ins/{submission_id}"
    late = alice.post(at(submission_id, "write"), typed(notes="too late"), status=422)
    assert "handed in already" in late.problems[0]
    assert late.typed("notes") == "too late"


@pytest.mark.parametrize("page", ["write", "review", "photographs", "handed-in", "withdraw", ""])
def test_who_may_open_the_pages(browse, draft, page):
    path = at(draft, page)
    for stranger in ("charlie", "eve"):
        browse(stranger).get(path, status=404)
    for other in ("cora", "tess", "olga", "stan"):
        browse(other).get(path, status=403)
    assert browse().get(path, status=302).location.startswith("/sign-in")
    browse("alice").get(at(uuid4(), page), status=404)


@pytest.mark.parametrize("page", ["write", "keep", "hand-in", "withdraw"])
def test_who_may_send_to_the_pages(browse, cast, draft, page):
    fields = {"version": stands(cast, draft).version}
    for stranger in ("charlie", "eve"):
        browse(stranger).post(at(draft, page), fields, status=404)
    for other in ("cora", "tess", "olga", "stan"):
        browse(other).post(at(draft, page), fields, status=403)
    browse().post(at(draft, page), fields, status=401)
    browse("alice").post(at(uuid4(), page), fields, status=404)
    if page in ("hand-in", "withdraw"):
        browse("bob").post(at(draft, page), fields, status=403)
    assert stands(cast, draft).state is SubmissionState.DRAFT


def test_a_member_writes_and_looks_over_but_a_lead_hands_in(browse, draft):
    bob = browse("bob")
    keep(bob, draft)
    looked = bob.get(at(draft, "review"))
    assert "Ask a lead of your group to hand it in." in looked.main
    assert at(draft, "hand-in") not in looked.actions


@pytest.mark.parametrize(
    ("page", "verb"),
    [("write", "put"), ("review", "post"), ("keep", "get"), ("hand-in", "get"), ("", "post")],
)
def test_wrong_verbs(browse, draft, page, verb):
    alice = browse("alice")
    assert (
        getattr(alice.client, verb)(at(draft, page), data={"csrf_token": alice.form_token}).status_code == 405
    )


def test_the_queries_of_a_page_do_not_grow_with_rows(browse, cast, draft):
    alice = browse("alice")
    counts = {}
    for page in ("write", "review"):
        alice.fill(at(draft, "write"), **typed(collection(tallies=collection().tallies[:2])), do="keep")
        alice.get(at(draft, page))
        few = len(alice.queries)
        keep(alice, draft)
        alice.get(at(draft, page))
        assert len(alice.queries) == few
        counts[page] = few
    assert counts == {"write": 9, "review": 25}
