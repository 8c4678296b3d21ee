"""Seeds are counted like money: a balance is the sum of its entries, and never negative."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from datetime import timedelta
from uuid import UUID

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import select
from sqlalchemy.exc import IntegrityError

from hub.accessions.actions import enter, move, place_lot
from hub.accessions.models import Lot, LotEntry
from hub.accessions.queries import entries_of, get_lot
from hub.accessions.rules import AccessionState, Booking, EntryKind, signed
from hub.audit.models import AuditEntry
from hub.audit.rules import Event
from hub.words import NotFound, Refused
from tests.accessions.scene import banked, lots, put, stands
from tests.cast import Cast


@pytest.fixture
def lot_id(cast: Cast) -> UUID:
    """A lot that opens with 120 seeds."""
    return lots(cast, banked(cast))[2].id


def book(cast: Cast, lot_id: UUID, kind: EntryKind, seeds: int, why: str = "a test") -> None:
    with cast.work("tess", now=cast.now + timedelta(hours=1)) as work:
        enter(work, lot_id=lot_id, kind=kind, seeds=seeds, why=why)


def balance(cast: Cast, lot_id: UUID) -> int:
    """The balance, having checked it against the entries."""
    with cast.work("tess") as work:
        held = get_lot(work, lot_id).balance_seeds
        assert held == sum(entry.seeds for entry in entries_of(work, lot_id))
        return held


def test_an_entry_names_who_when_and_why(cast: Cast, lot_id: UUID) -> None:
    book(cast, lot_id, EntryKind.TESTED, -20, " germination test 1 ")
    with cast.work("tess") as work:
        opening, entry = entries_of(work, lot_id)
    assert (opening.kind, opening.seeds) == (EntryKind.BANKED, 120)
    assert (entry.by, entry.at, entry.why) == (
        cast.people["tess"].id,
        cast.now + timedelta(hours=1),
        "germination test 1",
    )
    assert balance(cast, lot_id) == 100
    with cast.everywhere() as work:
        told = list(work.db.scalars(select(AuditEntry).where(AuditEntry.event == Event.LOT_ENTERED)))
    assert told[-1].after == {"kind": "tested", "seeds": -20}


@pytest.mark.parametrize(
    ("kind", "seeds", "why", "says"),
    [
        (EntryKind.DRAWN, -121, "a request", "The lot holds 120 seeds"),
        (EntryKind.DRAWN, 0, "a request", "An entry of no seeds"),
        (EntryKind.DRAWN, 5, "a request", "leave the lot"),
        (EntryKind.LOST, -5, "  ", "Please say why"),
    ],
)
def test_a_refused_entry_changes_nothing(
    cast: Cast, lot_id: UUID, kind: EntryKind, seeds: int, why: str, says: str
) -> None:
    with pytest.raises(Refused, match=says):
        book(cast, lot_id, kind, seeds, why)
    assert balance(cast, lot_id) == 120


def test_the_database_itself_refuses_a_balance_below_nothing(cast: Cast, lot_id: UUID) -> None:
    with pytest.raises(IntegrityError), cast.everywhere() as work:
        work.db.get_one(Lot, lot_id).balance_seeds = -1
    nothing = LotEntry(
        bank_id=cast.fell_bank.id, lot_id=lot_id, kind=EntryKind.LOST, seeds=0, at=cast.now, why=""
    )
    with pytest.raises(IntegrityError), cast.everywhere() as work:
        work.db.add(nothing)


def test_no_number_of_hands_at_once_draws_more_than_there_is(cast: Cast, lot_id: UUID) -> None:
    """Twenty draws of ten against 120 seeds: twelve go through."""

    def draw(_: int) -> bool:
        try:
            book(cast, lot_id, EntryKind.DRAWN, -10)
        except Refused:
            return False
        return True

    with ThreadPoolExecutor(8) as pool:
        assert sum(pool.map(draw, range(20))) == 12
    assert balance(cast, lot_id) == 0


BOOKINGS = st.lists(st.tuples(st.sampled_from(Booking), st.integers(1, 200)), max_size=12)


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(bookings=BOOKINGS)
def test_after_any_entries_the_balance_is_their_sum(
    cast: Cast, lot_id: UUID, bookings: list[tuple[Booking, int]]
) -> None:
    expected = balance(cast, lot_id)
    for booking, seeds in bookings:
        kind, change = signed(booking, seeds)
        if expected + change < 0:
            with pytest.raises(Refused):
                book(cast, lot_id, kind, change)
        else:
            book(cast, lot_id, kind, change)
            expected += change
        assert balance(cast, lot_id) == expected


def test_entries_stay_in_their_own_lot(cast: Cast) -> None:
    held = lots(cast, banked(cast))
    book(cast, held[0].id, EntryKind.LOST, -40)
    assert [balance(cast, lot.id) for lot in held] == [0, 80, 120]


@pytest.mark.parametrize("state", [AccessionState.EXHAUSTED, AccessionState.DEACCESSIONED])
def test_a_closed_accession_takes_no_entry(cast: Cast, state: AccessionState) -> None:
    accession = banked(cast)
    put(cast, accession, state)
    with pytest.raises(Refused, match="its ledger is closed"):
        book(cast, lots(cast, accession)[0].id, EntryKind.LOST, -1)


def test_exhausted_means_that_no_seed_is_left(cast: Cast) -> None:
    accession = banked(cast)
    put(cast, accession, AccessionState.STORED)
    with pytest.raises(Refused, match="240 seeds are still in its lots"), cast.work("tess") as work:
        move(work, accession_id=accession.id, wanted=AccessionState.EXHAUSTED)
    for lot in lots(cast, accession):
        book(cast, lot.id, EntryKind.DRAWN, -lot.balance_seeds)
    with cast.work("tess") as work:
        move(work, accession_id=accession.id, wanted=AccessionState.EXHAUSTED)
    assert stands(cast, accession).state is AccessionState.EXHAUSTED


def test_a_place_is_noted_once(cast: Cast, lot_id: UUID) -> None:
    for place in ("Freezer 1 ", "Freezer 1"):
        with cast.work("tess") as work:
            place_lot(work, lot_id=lot_id, place=place)
    with cast.everywhere() as work:
        told = list(work.db.scalars(select(AuditEntry).where(AuditEntry.event == Event.LOT_PLACED)))
    assert [(entry.before, entry.after["place"]) for entry in told] == [({"place": ""}, "Freezer 1")]


@pytest.mark.parametrize("name", ["dora", "alice"])
def test_a_stranger_finds_no_lot(cast: Cast, lot_id: UUID, name: str) -> None:
    for verb, values in (
        (enter, {"kind": EntryKind.LOST, "seeds": -1, "why": "x"}),
        (place_lot, {"place": "x"}),
    ):
        with pytest.raises(NotFound), cast.work(name) as work:
            verb(work, lot_id=lot_id, **values)
