"""The queue: the most urgent first, filtered, searched, as a file, and read-only for the technician."""

from __future__ import annotations

from datetime import timedelta

import pytest

from hub.vetting.collection import AfterCare, Container
from hub.vetting.rules import SubmissionState
from tests.vetting.scene import COLLECTED, handed_in, sent_back, set_scene, stands

QUERIES = 12  # session, seat, person; count, page, notes, two lists of choices


@pytest.fixture
def scene(cast):
    return set_scene(cast)


def numbers(page):
    """The numbers on the bench, from the top."""
    return [link.rpartition("/")[2] for link in page.links if link.startswith("/bench/") and len(link) > 30]


def test_what_waits_is_there_with_its_counts(browse, cast, scene):
    waiting = stands(cast, handed_in(cast, scene))
    page = browse("cora").get("/bench")
    assert "1 collection waits." in page.main
    assert numbers(page) == [str(waiting.id)]
    assert waiting.number in page.main
    assert "Fell Group" in page.main
    assert "1 stop" in page.main  # no photograph, but a voucher; fruit counts
