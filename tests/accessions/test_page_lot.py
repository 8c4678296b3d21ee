"""One lot: an entry of its ledger, its place; and the moves of its accession, asked about first."""

from __future__ import annotations

from uuid import UUID, uuid4

import pytest

from hub.accessions.actions import enter, place_lot
from hub.accessions.models import Accession
from hub.accessions.rules import AccessionState, EntryKind
from hub.taxa.models import Taxon
from hub.taxa.rules import StorageBehaviour
from tests.accessions.scene import banked, lots, placed, put, stands
from tests.cast import Cast
from tests.support.browser import Browse

QUERIES = 6
QUERIES_OF_STORING = 6
VERBS = {"store": "stored", "living": "living", "exhaust": "exhausted", "deaccession": "deaccessioned"}


@pytest.fixture
def accession(cast: Cast) -> Accession:
    return banked(cast)


@pytest.fixture
def lot_id(cast: Cast, accession: Accession) -> UUID:
    return lots(cast, accession)[0].id


def test_an_entry_is_made(cast: Cast, browse: Browse, lot_id: UUID) -> None:
    tess, path = browse("tess"), f"/lots/{lot_id}"
    page = tess.get(path)
    assert "Balance 40 seeds" in page.main
    assert "an estimate" in page.main
    assert len(tess.queries) == QUERIES
    page = tess.follow(
        tess.fill(path, action=f"{path}/entries", booking="tested", seeds="15", why="test 7", counted="yes")
    )
    assert "The lot holds 25 seeds now." in page.text
    assert "−15" in page.main
    assert "tested counted" in page.main
    assert "Tess" in page.main


@pytest.mark.parametrize(
    ("typed", "box", "says"),
    [
        ({"booking": "drawn", "seeds": "41", "why": "x"}, "seeds", "The lot holds 40 seeds"),
        ({"booking": "drawn", "seeds": "0", "why": "x"}, "seeds", "from 1"),
        ({"booking": "drawn", "seeds": "-4", "why": "x"}, "seeds", "from 1"),
        ({"booking": "drawn", "seeds": "a few", "why": "x"}, "seeds", "whole number"),
        ({"booking": "more", "seeds": "2000000000", "why": "x"}, "seeds", "No lot holds that many"),
        ({"booking": "eaten", "seeds": "4", "why": "x"}, "booking", "choose one"),
        ({"booking": "banked", "seeds": "4", "why": "x"}, "booking", "choose one"),
        ({"seeds": "4", "why": "x"}, "booking", "choose one"),
        ({"booking": "drawn", "seeds": "4"}, "why", "fill this in"),
    ],
)
def test_what_cannot_be_entered_is_said_beside_its_box(
    browse: Browse, lot_id: UUID, typed: dict[str, str], box: str, says: str
) -> None:
    page = browse("tess").post(f"/lots/{lot_id}/entries", typed, status=422)
    assert says in page.beside(box)
    if box != "booking":
        assert page.typed(box) == typed.get(box, "")
    assert "40 seeds" in page.main


def test_a_place_is_noted(browse: Browse, lot_id: UUID) -> None:
    tess, path = browse("tess"), f"/lots/{lot_id}"
    page = tess.follow(tess.fill(path, action=f"{path}/place", place="Freezer 2, drawer 4"))
    assert "The place is noted." in page.text
    assert page.typed("place") == "Freezer 2, drawer 4"
    assert page.typed("container") == ""
    tess.fill(path, action=f"{path}/place", container="foil bag")
    assert "foil bag" in tess.get(path).html
    tess.post(f"{path}/place", {"place": "x" * 201}, status=422)


def test_a_closed_ledger_offers_no_entry(
    cast: Cast, browse: Browse, accession: Accession, lot_id: UUID
) -> None:
    put(cast, accession, AccessionState.EXHAUSTED)
    page = browse("tess").get(f"/lots/{lot_id}")
    assert "its ledger is closed" in page.main
    assert f"/lots/{lot_id}/entries" not in page.actions


@pytest.mark.parametrize(
    ("verb", "first"), [("store", None), ("living", None), ("deaccession", AccessionState.STORED)]
)
def test_a_move_is_asked_about_and_made(
    cast: Cast, browse: Browse, accession: Accession, verb: str, first: AccessionState | None
) -> None:
    if first:
        put(cast, accession, first)
    placed(cast, accession)
    tess, path = browse("tess"), f"/accessions/{accession.id}/{verb}"
    assert accession.number in tess.get(path).heading
    page = tess.follow(tess.fill(path, reason="Dry, and in its drawer."))
    assert accession.number in page.heading
    assert "Dry, and in its drawer." in page.main
    assert stands(cast, accession).state.value == VERBS[verb]


def test_every_verb_in_every_state(cast: Cast, browse: Browse, accession: Accession) -> None:
    allowed = {("processing", "store"), ("processing", "living"), ("stored", "deaccession")}
    tess = browse("tess")
    placed(cast, accession)
    for state in AccessionState:
        for verb, after in VERBS.items():
            put(cast, accession, state)
            good = (state.value, verb) in allowed
            tess.post(
                f"/accessions/{accession.id}/{verb}", {"reason": "A test."}, status=303 if good else 422
            )
            assert stands(cast, accession).state.value == (after if good else state.value)


def test_a_deaccession_needs_its_reason(cast: Cast, browse: Browse, accession: Accession) -> None:
    put(cast, accession, AccessionState.STORED)
    page = browse("tess").fill(f"/accessions/{accession.id}/deaccession", status=422)
    assert "Please fill this in." in page.beside("reason")


def test_storing_seed_that_dies_dry_is_warned_of(cast: Cast, browse: Browse, accession: Accession) -> None:
    path, tess = f"/accessions/{accession.id}/store", browse("tess")
    assert "Dry storage may kill it" not in tess.get(path).main
    with cast.everywhere() as work:
        work.db.get_one(Taxon, accession.taxon_id).storage = StorageBehaviour.RECALCITRANT
    assert "dies when dried. Dry storage may kill it" in tess.get(path).main


def test_nothing_is_stored_in_no_place_and_the_lots_are_named(
    cast: Cast, browse: Browse, accession: Accession, lot_id: UUID
) -> None:
    path, tess = f"/accessions/{accession.id}/store", browse("tess")
    with cast.work("tess") as work:
        place_lot(work, lot_id=lot_id, place="Freezer 2")
    asks = tess.get(path)
    assert len(tess.queries) == QUERIES_OF_STORING
    assert "2 lots have no place yet: 02, 03." in asks.main
    assert f"/accessions/{accession.id}/places" in asks.links
    assert "2 lots have no place yet: 02, 03." in tess.post(path, status=422).main
    assert stands(cast, accession).state is AccessionState.PROCESSING
    placed(cast, accession)
    tess.fill(path)
    assert stands(cast, accession).state is AccessionState.STORED


def test_storing_untested_seed_is_warned_of(
    cast: Cast, browse: Browse, accession: Accession, lot_id: UUID
) -> None:
    path, tess = f"/accessions/{accession.id}/store", browse("tess")
    assert "3 lots were not tested yet: 01, 02, 03." in tess.get(path).main
    with cast.work("tess") as work:
        enter(work, lot_id=lot_id, kind=EntryKind.TESTED, seeds=-10, why="test 7")
    assert "2 lots were not tested yet: 02, 03." in tess.get(path).main
    assert "not tested" not in tess.get(f"/accessions/{accession.id}/living").main


def test_who_may_not(cast: Cast, browse: Browse, accession: Accession, lot_id: UUID) -> None:
    for name, status in (("alice", 403), ("bob", 403), ("olga", 403), ("stan", 403), ("dora", 404)):
        browser = browse(name)
        for path in (f"/lots/{lot_id}", f"/accessions/{accession.id}/store"):
            browser.get(path, status=status)
        for path in (f"/lots/{lot_id}/entries", f"/lots/{lot_id}/place", f"/accessions/{accession.id}/store"):
            browser.post(path, status=status)
    assert browse().get(f"/lots/{lot_id}", status=302).location.startswith("/sign-in")


def test_what_is_not_there_and_the_wrong_verb(browse: Browse, lot_id: UUID) -> None:
    tess = browse("tess")
    tess.get(f"/lots/{uuid4()}", status=404)
    tess.get(f"/accessions/{uuid4()}/store", status=404)
    tess.post(f"/lots/{uuid4()}/entries", status=404)
    tess.post(f"/lots/{lot_id}", status=405)
    tess.get(f"/lots/{lot_id}/entries", status=405)
