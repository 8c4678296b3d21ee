"""A collection is written down, kept, looked over and handed in."""

from __future__ import annotations

import pytest

from tests.vetting.scene import begun, set_scene
from tests.vetting.typing import typed


@pytest.fixture
def scene(cast):
    return set_scene(cast)


def write_path(submission_id):
    return f"/hand-ins/{submission_id}/write"


def test_a_collection_goes_all_the_way_in(browse, cast, scene):
    alice = browse("alice")
    begun_page = alice.fill("/hand-ins/new", sheet_id=scene.sheet.id)
    path = begun_page.location
    form = alice.get(path)
    assert form.typed("container") == "paper_bag"  # as the sheet asks
    looked = alice.follow(alice.fill(path, **typed(), do="review"))
    assert looked.heading.startswith("Look over FLG-2031-0001-")
    assert "2,400 of the 24,000 seeds that your sheet allows 10%" in looked.main
    assert "a photograph of the habitat" in looked.main
    submission_id = path.split("/")[2]
    after = alice.follow(alice.press(looked_path(submission_id), f"/hand-ins/{submission_id}/hand-in"))
    assert "Fell Bank" in after.main
    assert "By 19 Jul 2031, 12:15 UTC" in after.main
    shown = alice.get(f"/hand-ins/{submission_id}")
    assert "Handed in" in shown.main
    assert "A60" in shown.main


def looked_path(submission_id):
    return f"/hand-ins/{submission_id}/review"


def test_what_is_typed_is_kept_as_it_is_also_when_it_is_wrong(browse, cast, scene):
    alice, submission_id = browse("alice"), begun(cast, scene)
    wrong = {"people": "many", "collected_on": "last week", "tallies-7-flag": "B7", "notes": " two  spaces "}
    alice.fill(write_path(submission_id), **wrong, do="keep")
    form = alice.get(write_path(submission_id))
    assert {name: form.typed(name) for name in wrong} == wrong
    refused = alice.get(looked_path(submission_id), status=422)
    assert refused.beside("people") == "Problem: Please give a whole number in digits, such as 40."
    assert refused.beside("collected_on").startswith("Problem: Please give a day of the calendar")
    assert refused.typed("people") == "many"
