"""The moves of an accession, the signs of ledger entries, and numbers as people type them."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.accessions.numbers import lot_number, signs, without_check
from hub.accessions.rules import (
    ACCESSION_MOVES,
    BECAME,
    MOST_SEEDS,
    AccessionState,
    Booking,
    EntryKind,
    against_entry,
    may_become,
    signed,
)
from hub.db.numbering import with_check

State = AccessionState
# Said here again from the plan of the house, so that a slip in the rules shows.
ALLOWED = {
    ("processing", "stored"), ("processing", "living"), ("stored", "exhausted"), ("stored", "deaccessioned"),
}  # fmt: skip


@pytest.mark.parametrize(("before", "after"), list(product(State, State)))
def test_every_pair_of_states(before: State, after: State) -> None:
    assert may_become(before, after) == ((before.value, after.value) in ALLOWED)


def test_every_state_has_its_moves_and_its_words() -> None:
    assert set(ACCESSION_MOVES) == set(BECAME) == set(State)


@pytest.mark.parametrize("booking", Booking)
def test_seeds_go_the_way_that_their_kind_says(booking: Booking) -> None:
    kind, seeds = signed(booking, 5)
    assert seeds == (5 if booking in (Booking.MORE, Booking.REGENERATED) else -5)
    assert against_entry(State.STORED, kind, seeds, balance=5) is None


@pytest.mark.parametrize(
    ("state", "kind", "seeds", "says"),
    [
        (State.STORED, EntryKind.DRAWN, -11, "The lot holds 10 seeds; no more can leave it."),
        (State.STORED, EntryKind.DRAWN, 5, "Seeds that were drawn leave the lot."),
        (State.STORED, EntryKind.BANKED, -5, "Seeds that were banked come into the lot."),
        (State.STORED, EntryKind.CORRECTED, 0, "An entry of no seeds changes nothing."),
        (State.STORED, EntryKind.CORRECTED, MOST_SEEDS, "No lot holds that many seeds."),
        (State.EXHAUSTED, EntryKind.CORRECTED, 1, "This accession is exhausted"),
        (State.DEACCESSIONED, EntryKind.LOST, -1, "This accession is deaccessioned"),
    ],
)
def test_what_the_ledger_refuses(state: State, kind: EntryKind, seeds: int, says: str) -> None:
    assert str(against_entry(state, kind, seeds, balance=10)).startswith(says)


@given(st.sampled_from(State), st.sampled_from(EntryKind), st.integers(), st.integers(0, MOST_SEEDS))
def test_what_it_lets_through_never_goes_below_nothing(
    state: State, kind: EntryKind, seeds: int, balance: int
) -> None:
    if against_entry(state, kind, seeds, balance) is None:
        assert 0 <= balance + seeds <= MOST_SEEDS


NUMBER = with_check("HVSB-2031-0042")


@pytest.mark.parametrize(
    "typed", [NUMBER, NUMBER.lower(), NUMBER.replace("-", " "), lot_number(NUMBER, "03")]
)
def test_a_number_is_read_in_any_dress(typed: str) -> None:
    assert signs(typed) == NUMBER.replace("-", "")
    assert without_check(typed) is None


def test_a_wrong_check_character_is_left_off() -> None:
    wrong = NUMBER[:-1] + ("A" if NUMBER[-1] != "A" else "B")
    assert without_check(wrong) == "HVSB20310042"


@pytest.mark.parametrize("typed", ["", "Silene acaulis", "2031", "HVSB-2031", "42"])
def test_what_is_no_whole_number_is_left_alone(typed: str) -> None:
    assert without_check(typed) is None


@given(st.integers(1, 9999), st.integers(0, 11), st.sampled_from("0123456789"))
def test_one_wrong_digit_is_always_noticed(serial: int, at: int, digit: str) -> None:
    """ISO 7064 MOD 37,36 detects every single substitution."""
    number = signs(with_check(f"HVSB-2031-{serial:04d}"))
    at = min(at, len(number) - 2)
    if number[at].isdigit() and number[at] != digit:
        changed = number[:at] + digit + number[at + 1 :]
        assert without_check(changed) == changed[:-1]
