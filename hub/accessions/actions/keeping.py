"""Keep what was banked: the seed ledger of its lots, and where the accession stands."""

from __future__ import annotations

from uuid import UUID

from hub.accessions import queries
from hub.accessions.models import Accession, Lot, LotEntry
from hub.accessions.rules import (
    AccessionState,
    EntryKind,
    against_entry,
    may_become,
    unplaced,
    without_place,
)
from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.work import Work
from hub.words import Refused, say, say_n


def enter(
    work: Work, *, lot_id: UUID, kind: EntryKind, seeds: int, why: str, estimated: bool = True
) -> LotEntry:
    """Add one entry to a lot's ledger: seeds in count up, seeds out down, and never below nothing.

    The accession is locked before the lot, as its own moves lock it, so that none is closed meanwhile.
    """
    accession = queries.get(work, queries.get_lot(work, lot_id).accession_id, locked=True)
    lot = queries.get_lot(work, lot_id, locked=True)
    if not why.strip():
        raise Refused(say("Please say why."), field="why")
    against = against_entry(accession.state, kind, seeds, lot.balance_seeds)
    if against:
        raise Refused(against, field="seeds")
    return entered(work, lot, kind=kind, seeds=seeds, why=why.strip(), estimated=estimated)


def entered(work: Work, lot: Lot, *, kind: EntryKind, seeds: int, why: str, estimated: bool) -> LotEntry:
    """An entry that was found good, and the balance that follows from it."""
    entry = LotEntry(
        bank_id=lot.bank_id,
        lot_id=lot.id,
        kind=kind,
        seeds=seeds,
        estimated=estimated,
        at=work.now,
        by=work.scope.person_id,
        why=why,
    )
    work.db.add(entry)
    lot.balance_seeds += seeds
    record(work, Event.LOT_ENTERED, lot, after={"kind": str(kind), "seeds": seeds}, reason=why)
    return entry


def move(work: Work, *, accession_id: UUID, wanted: AccessionState, reason: str = "") -> Accession:
    """Move an accession to another state, as the table of moves allows.

    Raises Refused, also for an accession that is to be exhausted while seed is left, and for a
    deaccession without its reason.
    """
    accession = queries.get(work, accession_id, locked=True)
    check(work, accession, wanted, reason)
    before, accession.state, accession.reason = accession.state, wanted, reason.strip()
    record(
        work,
        Event.ACCESSION_MOVED,
        accession,
        before={"state": str(before)},
        after={"state": str(wanted)},
        reason=accession.reason,
    )
    return accession


def check(work: Work, accession: Accession, wanted: AccessionState, reason: str) -> None:
    """Refuse a move that the table, the ledger or a missing reason forbids."""
    if not may_become(accession.state, wanted):
        raise Refused(say("This accession is {state}, so that cannot be done.", state=accession.state.words))
    if wanted is AccessionState.STORED and (lots := unplaced(queries.lots_of(work, accession.id))):
        raise Refused(without_place(lots))
    if wanted is AccessionState.EXHAUSTED and (left := queries.seeds_of(work, accession.id)):
        raise Refused(
            say_n(
                "{n} seed is still in its lots, so it is not exhausted.",
                "{n} seeds are still in its lots, so it is not exhausted.",
                n=left,
            )
        )
    if wanted is AccessionState.DEACCESSIONED and not reason.strip():
        raise Refused(say("Please give the reason for deaccessioning."), field="reason")
