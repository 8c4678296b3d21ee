"""The page on which the bank notes that seed has come in, and what bench and history say of it."""

from __future__ import annotations

from uuid import UUID, uuid4

import pytest

from tests.cast import Cast
from tests.support.browser import Browse
from tests.vetting.scene import COLLECTED, handed_in, set_scene, stands

QUERIES = 3


@pytest.fixture
def one(cast: Cast) -> UUID:
    return handed_in(cast, set_scene(cast))


def test_the_technician_notes_it_and_the_bench_shows_it(cast: Cast, browse: Browse, one: UUID) -> None:
    tess, path = browse("tess"), f"/bench/{one}/arrival"
    assert "due Sat, 19 Jul 2031, 12:15" in tess.get("/bench").main
    asks = tess.get(path)
    assert len(tess.queries) == QUERIES
    assert (asks.typed("day"), asks.typed("at")) == ("2031-07-14", "09:30")
    page = tess.follow(tess.fill(path, note="Bags whole and dry.\nNo mould."))
    for words in ("is noted as arrived", "arrived 14 Jul 2031, 09:30", "noted by Tess", "No mould."):
        assert words in page.text
    assert "Seed arrived" in page.main  # the history
    bench = tess.get("/bench").main
    assert "arrived 14 Jul 2031, 09:30" in bench
    assert "5 days left" not in bench


def test_late_is_said(cast: Cast, browse: Browse, one: UUID) -> None:
    with cast.everywhere() as work:
        work.db.merge(stands(cast, one)).deadline_at = cast.now.replace(day=13)
    tess = browse("tess")
    tess.fill(f"/bench/{one}/arrival")
    assert "too late" in tess.get("/bench").main


def test_it_is_undone(cast: Cast, browse: Browse, one: UUID) -> None:
    cora = browse("cora")
    cora.fill(f"/bench/{one}/arrival")
    page = cora.follow(cora.press(f"/bench/{one}", f"/bench/{one}/arrival/undo"))
    assert "is taken back" in page.text
    assert "Arrival taken back" in page.main
    assert stands(cast, one).arrived_at is None


def test_the_word_of_the_group_is_told_from_the_note_of_the_bank(cast: Cast, browse: Browse) -> None:
    handed_in(cast, set_scene(cast), reached_bank_on=COLLECTED)
    bench = browse("cora").get("/bench").main
    assert "the group says: brought on 12 July 2031" in bench
    assert "not noted by the bank" in bench


@pytest.mark.parametrize(
    ("typed", "box", "says"),
    [
        ({"day": "2031-07-15", "at": "09:00"}, "day", "still to come"),
        ({"day": "2031-07-11", "at": "09:00"}, "day", "collected after this day"),
        ({"day": "yesterday", "at": "09:00"}, "day", "year-month-day"),
        ({"day": "2031-07-14", "at": "nine"}, "at", "hours:minutes"),
        ({"at": "09:00"}, "day", "fill this in"),
    ],
)
def test_what_cannot_be_is_said_beside_its_box(
    cast: Cast, browse: Browse, one: UUID, typed: dict[str, str], box: str, says: str
) -> None:
    page = browse("tess").post(f"/bench/{one}/arrival", {**typed, "note": "damp"}, status=422)
    assert says in page.beside(box)
    assert page.typed(box) == typed.get(box, "")
    assert page.typed("note") == "damp"
    assert stands(cast, one).arrived_at is None


def test_who_may_not(cast: Cast, browse: Browse, one: UUID) -> None:
    paths = (f"/bench/{one}/arrival", f"/bench/{one}/arrival/undo")
    for name, status in (("alice", 403), ("bob", 403), ("olga", 403), ("stan", 403), ("dora", 404)):
        browse(name).get(paths[0], status=status)
        for path in paths:
            browse(name).post(path, status=status)
    assert browse().get(paths[0], status=302).location.startswith("/sign-in")


def test_what_is_not_there_and_the_wrong_verb(browse: Browse, one: UUID) -> None:
    tess = browse("tess")
    tess.get(f"/bench/{uuid4()}/arrival", status=404)
    tess.post(f"/bench/{uuid4()}/arrival", status=404)
    tess.get(f"/bench/{one}/arrival/undo", status=405)
