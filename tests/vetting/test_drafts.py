"""Nothing typed is lost, whatever it is, and nothing that can be sent breaks a page."""

from __future__ import annotations

from uuid import uuid4

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as some

from hub.vetting import actions
from hub.vetting.draft import typed_in
from hub.vetting.schemas import CollectionSchema
from hub.web.prefilled import prefilled
from tests.vetting.scene import begun, collection, set_scene, stands

FEW = settings(
    max_examples=40,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
ANY_TEXT = some.text(max_size=60)
NAMES = [*sorted(prefilled(CollectionSchema(), collection())), "bulk-plants", "tallies-999999-seeds"]
BOXES = some.dictionaries(
    some.sampled_from(NAMES) | some.text(min_size=1, max_size=20), ANY_TEXT, max_size=12
)


@given(typed=some.lists(some.tuples(ANY_TEXT, ANY_TEXT), max_size=8))
@FEW
def test_every_draft_comes_back_from_the_store_as_it_was_typed(store, typed):
    cast, submission_id = store
    with cast.work("alice") as work:
        actions.save_draft(work, submission_id=submission_id, draft=typed)
    assert typed_in(stands(cast, submission_id).draft) == typed


@given(boxes=BOXES)
@FEW
def test_no_box_of_the_form_can_break_a_page(pages, boxes):
    alice, cast, submission_id = pages
    path = f"/hand-ins/{submission_id}"
    sent = {**boxes, "csrf_token": alice.token, "do": "review"}
    answer = alice.client.post(f"{path}/write", data=sent)
    assert answer.status_code < 500
    if answer.status_code == 303:
        kept = dict(typed_in(stands(cast, submission_id).draft))
        assert {name: as_sent(text) for name, text in kept.items()} == {
            name: as_sent(text) for name, text in boxes.items() if name not in BESIDE
        }
    for page in ("write", "review"):
        assert alice.client.get(f"{path}/{page}").status_code in (200, 422)


BESIDE = ("csrf_token", "version", "do", "next")


def as_sent(text: str) -> str:
    """Half a pair of surrogates cannot travel in UTF-8 at all."""
    return text.encode("utf-8", "replace").decode()


@given(key=some.text(max_size=90), sheet=some.uuids().map(str) | ANY_TEXT)
@FEW
def test_no_key_or_sheet_can_break_the_beginning(pages, key, sheet):
    alice, _, _ = pages
    sent = {"csrf_token": alice.token, "sent_key": key, "sheet_id": sheet}
    assert alice.client.post("/hand-ins", data=sent).status_code in (404, 422)


@given(address=some.text(max_size=40))
@FEW
def test_no_address_can_break_the_list(pages, address):
    alice, _, _ = pages
    asked = dict.fromkeys(("search", "state", "taxon", "sort", "at", "sheet"), address)
    assert alice.client.get("/hand-ins", query_string=asked).status_code < 500
    assert (
        alice.client.get("/hand-ins/new", query_string={"sheet": address or str(uuid4())}).status_code < 500
    )


def test_stale_versions_that_are_no_numbers_are_not_believed(browse, cast):
    submission_id = begun(cast, set_scene(cast))
    for version in ("", "x", "9" * 30, "-1", "1.5"):
        browse("alice").post(f"/hand-ins/{submission_id}/hand-in", {"version": version}, status=422)
