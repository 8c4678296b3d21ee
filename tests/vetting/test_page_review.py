"""Before it is handed in: what the bank may ask is told in time, and what is left is said."""

from __future__ import annotations

import pytest
from sqlalchemy import func, select

from hub.protocols.queries import sheet_of
from hub.vetting.models import FindingRecord, Revision
from tests.vetting.scene import begun, collection, handed_in, sent_back, set_scene
from tests.vetting.typing import typed

ASKS = "The bank may ask about this"


@pytest.fixture
def scene(cast):
    return set_scene(cast)


@pytest.fixture
def draft(cast, scene):
    return begun(cast, scene)


def reviewed(window, submission_id, **boxes):
    window.fill(f"/hand-ins/{submission_id}/write", **typed(**boxes), do="keep")
    return window.get(f"/hand-ins/{submission_id}/review").main


def test_what_the_checks_would_ask_is_said_and_nothing_is_stored(browse, cast, draft):
    text = reviewed(browse("alice"), draft, latitude="47.3")
    assert ASKS in text
    assert "change it now" in text
    with cast.everywhere() as work:
        for table in (FindingRecord, Revision):
            assert work.db.scalar(select(func.count()).select_from(table)) == 0


def test_more_than_is_left_is_foreseen(browse, draft):
    alice = browse("alice")
    within, beyond = reviewed(alice, draft), reviewed(alice, draft, total_seeds="25000")
    assert len(beyond.split("What is still missing")[0]) > len(within.split("What is still missing")[0])


def test_the_form_says_what_is_left_and_why(browse, cast, scene, draft):
    alice, allowed = browse("alice"), sheet_of(scene.sheet).headline.left_seeds.value
    gone = collection().seeds_taken
    assert f"Your group may take at most {allowed:,} seeds." in alice.get(f"/hand-ins/{draft}/write").main
    handed_in(cast, scene)
    words = (
        f"may still take {allowed - gone:,} seeds: {allowed:,} by its sheet, less {gone:,} handed in before."
    )
    assert words in alice.get(f"/hand-ins/{draft}/write").main


def test_the_question_of_the_bank_stands_above_the_form(browse, cast, scene):
    submission_id = sent_back(cast, scene, remarks="How many plants were there?")
    text = browse("alice").get(f"/hand-ins/{submission_id}/write").main
    assert (
        text.index("What the bank asks")
        < text.index("How many plants were there?")
        < text.index("When and who")
    )
