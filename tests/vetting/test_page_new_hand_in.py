"""Which sheet was it collected under? Those that hold are offered; an old one only on asking."""

from __future__ import annotations

from datetime import timedelta

import pytest

from hub.protocols.actions import withdraw
from hub.taxa.models import Season
from tests.vetting.scene import set_scene

PATH = "/hand-ins/new"
QUESTION = "Collected under a sheet that holds no longer?"


@pytest.fixture
def scene(cast):
    return set_scene(cast)


def test_a_sheet_that_holds_is_offered_with_its_season(browse, scene):
    page = browse("alice").get(PATH)
    assert "Season 2031 Silene acaulis" in page.main
    assert "/hand-ins" in page.actions
    assert QUESTION not in page.main


def test_a_sheet_of_a_closed_season_is_not_offered_for_a_new_hand_in(browse, cast, scene):
    with cast.everywhere() as work:
        work.db.get_one(Season, cast.season.id).closes_on = cast.now.date() - timedelta(days=1)
    page = browse("alice").get(PATH)
    assert "/hand-ins" not in page.actions
    assert "no sheet that holds now" in page.main


def test_what_was_collected_while_it_held_is_handed_in_on_asking(browse, cast, scene):
    """A submission is checked against the sheet that it was collected under, whatever holds today."""
    with cast.work("cora") as work:
        withdraw(work, sheet_id=scene.sheet.id, reason="The fence is down.")
    alice = browse("alice")
    page = alice.get(PATH)
    assert QUESTION in page.main
    assert f"{scene.sheet.number}, Silene acaulis" in page.main
    (way,) = (link for link in page.links if link == f"{PATH}?sheet={scene.sheet.id}")
    named = alice.get(way)
    assert "This sheet no longer holds." in named.main
    assert alice.fill(way, action="/hand-ins").location.endswith("/write")


def test_the_number_of_questions_to_the_store(browse, scene):
    alice = browse("alice")
    alice.get(PATH)
    assert len(alice.queries) == 4
