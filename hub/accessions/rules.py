"""States of an accession, kinds of lot and of ledger entry, and what the ledger refuses."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Protocol

from hub.taxa.closed_lists import Worded
from hub.words import Words, say, say_n


class AccessionState(Worded):
    """Where an accession stands."""

    PROCESSING = "processing", say("processing")
    STORED = "stored", say("stored")
    LIVING = "living", say("living collection")
    EXHAUSTED = "exhausted", say("exhausted")
    DEACCESSIONED = "deaccessioned", say("deaccessioned")


ACCESSION_MOVES: dict[AccessionState, frozenset[AccessionState]] = {
    AccessionState.PROCESSING: frozenset({AccessionState.STORED, AccessionState.LIVING}),
    AccessionState.STORED: frozenset({AccessionState.EXHAUSTED, AccessionState.DEACCESSIONED}),
    AccessionState.LIVING: frozenset(),
    AccessionState.EXHAUSTED: frozenset(),
    AccessionState.DEACCESSIONED: frozenset(),
}
# The book is shut: no seed comes or goes any more.
CLOSED = frozenset({AccessionState.EXHAUSTED, AccessionState.DEACCESSIONED})

# What the group that collected the seed is told of it.
BECAME: dict[AccessionState, Words] = {
    AccessionState.PROCESSING: say("The bank is cleaning, drying and testing it."),
    AccessionState.STORED: say("It is in the bank, kept alive for years to come."),
    AccessionState.LIVING: say(
        "It was sown and grows on as a living collection, because it cannot be stored."
    ),
    AccessionState.EXHAUSTED: say("All of it has been used, for tests, for planting or for research."),
    AccessionState.DEACCESSIONED: say("The bank no longer keeps it."),
}


class LotKind(Worded):
    """Seed of one maternal line, or of many mothers together."""

    MATERNAL_LINE = "maternal line", say("maternal line")
    BULK = "bulk", say("bulk")


class EntryKind(Worded):
    """Why a lot's balance changed."""

    BANKED = "banked", say("banked")
    CORRECTED = "corrected", say("corrected")
    TESTED = "tested", say("tested")
    DRAWN = "drawn", say("drawn")
    DUPLICATED = "duplicated", say("sent as a safety duplicate")
    REGENERATED = "regenerated", say("regenerated")
    LOST = "lost", say("lost")


ADDS = frozenset({EntryKind.BANKED, EntryKind.REGENERATED, EntryKind.CORRECTED})
TAKES = frozenset(EntryKind) - ADDS | {EntryKind.CORRECTED}
MOST_SEEDS = 2_000_000_000  # in one lot: more than any container holds, less than a column does


class Booking(Worded):
    """What a person can enter by hand: the opening entry comes with the approval alone."""

    TESTED = "tested", say("Tested: seeds used up in a test")
    DRAWN = "drawn", say("Drawn: seeds given out")
    DUPLICATED = "duplicated", say("Safety duplicate: seeds sent to another bank")
    LOST = "lost", say("Lost: spilt, spoilt or eaten")
    FEWER = "fewer", say("Correction: fewer seeds than the ledger says")
    MORE = "more", say("Correction: more seeds than the ledger says")
    REGENERATED = "regenerated", say("Regenerated: fresh seed grown from this lot")


CORRECTIONS = {Booking.FEWER: -1, Booking.MORE: 1}


def signed(booking: Booking, seeds: int) -> tuple[EntryKind, int]:
    """The kind of an entry and its seeds, negative where they leave the lot."""
    if booking in CORRECTIONS:
        return EntryKind.CORRECTED, CORRECTIONS[booking] * seeds
    kind = EntryKind(booking.value)
    return kind, seeds if kind in ADDS else -seeds


def may_become(state: AccessionState, wanted: AccessionState) -> bool:
    """Whether an accession may move from one state to another."""
    return wanted in ACCESSION_MOVES[state]


class Kept(Protocol):
    """What is asked of a lot here."""

    label: str
    balance_seeds: int
    place: str


def unplaced(lots: Iterable[Kept]) -> list[str]:
    """The labels of the lots that hold seed of which nobody has said where it is."""
    return [lot.label for lot in lots if lot.balance_seeds and not lot.place]


def without_place(labels: Sequence[str]) -> Words:
    """Why an accession with these lots is not stored yet."""
    return say_n(
        "{n} lot has no place yet: {lots}. Say where it is kept, then store the accession.",
        "{n} lots have no place yet: {lots}. Say where they are kept, then store the accession.",
        n=len(labels),
        lots=", ".join(labels),
    )


def against_entry(state: AccessionState, kind: EntryKind, seeds: int, balance: int) -> Words | None:
    """Why an entry of so many seeds (in above 0, out below) cannot be made; None when it can."""
    reasons = (
        (state in CLOSED, say("This accession is {state}: its ledger is closed.", state=state.words)),
        (seeds == 0, say("An entry of no seeds changes nothing.")),
        (seeds > 0 and kind not in ADDS, say("Seeds that were {kind} leave the lot.", kind=kind.words)),
        (seeds < 0 and kind not in TAKES, say("Seeds that were {kind} come into the lot.", kind=kind.words)),
        (balance + seeds < 0, too_few(balance)),
        (balance + seeds > MOST_SEEDS, say("No lot holds that many seeds. Please check the number.")),
    )
    return next((words for holds, words in reasons if holds), None)


def too_few(balance: int) -> Words:
    return say_n(
        "The lot holds {n} seed; no more can leave it.",
        "The lot holds {n} seeds; no more can leave it.",
        n=balance,
    )
