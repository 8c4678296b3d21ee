"""Approve a submission into an accession, and keep the seed ledger of its lots."""

from __future__ import annotations

from uuid import UUID, uuid4

from hub.accessions import queries
from hub.accessions.letters import thank
from hub.accessions.lines import LotPlan, lots_for
from hub.accessions.models import Accession, Lot, LotEntry
from hub.accessions.rules import ACCESSION_MOVES, AccessionState, EntryKind
from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.numbering import next_in, with_check
from hub.db.work import Work
from hub.groups.models import Bank
from hub.vetting import actions as vetting
from hub.vetting import queries as submissions
from hub.vetting.collection import Collection
from hub.vetting.models import Submission
from hub.vetting.rules import SubmissionState
from hub.words import Refused, say, say_n


def approve(work: Work, *, submission_id: UUID, remark: str = "") -> Accession:
    """Make a submission an accession: number, lots, opening entries and the letter of thanks, all or nothing.

    Refuses while a stop is open. Approving twice gives the accession there is.
    """
    submission = submissions.get(work, submission_id, locked=True)
    if submission.state is SubmissionState.APPROVED and (made := queries.of_submission(work, submission_id)):
        return made
    if submission.open_stops:
        raise Refused(
            say_n(
                "{n} stop is still open. Resolve or overrule it first.",
                "{n} stops are still open. Resolve or overrule them first.",
                n=submission.open_stops,
            )
        )
    revision = submissions.newest_revision(work, submission)
    if revision is None:
        raise Refused(say("Nothing has been handed in yet."))
    collection = submissions.collection_of(revision)
    vetting.move(work, submission=submission, wanted=SubmissionState.APPROVED, reason=remark)
    accession = entered(work, submission, collection)
    for plan in lots_for(collection):
        bank_lot(work, accession, plan)
    thank(work, accession, submission, remark)
    return accession


def entered(work: Work, submission: Submission, collection: Collection) -> Accession:
    """The accession under its number, for good."""
    bank = work.db.get_one(Bank, submission.bank_id)
    year = work.today.year
    serial = next_in(work, f"accession {bank.code} {year}")
    accession = Accession(
        id=uuid4(),
        group_id=submission.group_id,
        bank_id=submission.bank_id,
        number=with_check(f"{bank.code}-{year}-{serial:04d}"),
        year=year,
        serial=serial,
        submission_id=submission.id,
        taxon_id=submission.taxon_id,
        population_id=submission.population_id,
        collected_on=collection.collected_on,
        mothers=collection.mothers,
        accessioned_at=work.now,
        accessioned_by=work.scope.person_id,
        reason="",
        state=AccessionState.PROCESSING,
    )
    work.db.add(accession)
    record(work, Event.ACCESSION_MADE, accession, after={"number": accession.number})
    return accession


def bank_lot(work: Work, accession: Accession, plan: LotPlan) -> Lot:
    """One lot with its opening entry. A line of no seed gets its lot all the same: the mother was visited."""
    lot = Lot(
        id=uuid4(),
        bank_id=accession.bank_id,
        accession_id=accession.id,
        label=plan.label,
        kind=plan.kind,
        mother=plan.mother,
        balance_seeds=0,
    )
    work.db.add(lot)
    work.db.flush()  # the ledger locks the lot's row
    if plan.seeds:
        enter(work, lot_id=lot.id, kind=EntryKind.BANKED, seeds=plan.seeds, why=accession.number)
    return lot


def enter(
    work: Work, *, lot_id: UUID, kind: EntryKind, seeds: int, why: str, estimated: bool = True
) -> LotEntry:
    """Add one entry to a lot's ledger: seeds in count up, seeds out down, and never below nothing."""
    lot = queries.get_lot(work, lot_id, locked=True)
    if not seeds:
        raise Refused(say("An entry of no seeds changes nothing."), field="seeds")
    if lot.balance_seeds + seeds < 0:
        raise Refused(
            say_n(
                "The lot holds {n} seed; no more can leave it.",
                "The lot holds {n} seeds; no more can leave it.",
                n=lot.balance_seeds,
            ),
            field="seeds",
        )
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


def place_lot(work: Work, *, lot_id: UUID, place: str) -> Lot:
    """Say where a lot is kept."""
    lot = queries.get_lot(work, lot_id, locked=True)
    before, lot.place = lot.place, place
    record(work, Event.LOT_PLACED, lot, before={"place": before}, after={"place": place})
    return lot


def move(work: Work, *, accession_id: UUID, wanted: AccessionState, reason: str = "") -> Accession:
    """Move an accession to another state, as the table of moves allows."""
    accession = queries.get(work, accession_id, locked=True)
    if wanted not in ACCESSION_MOVES[accession.state]:
        raise Refused(say("This accession cannot be moved there from where it stands."))
    if wanted is AccessionState.DEACCESSIONED and not reason.strip():
        raise Refused(say("Please give the reason for deaccessioning."), field="reason")
    before, accession.state, accession.reason = accession.state, wanted, reason
    record(
        work,
        Event.ACCESSION_MOVED,
        accession,
        before={"state": str(before)},
        after={"state": str(wanted)},
        reason=reason,
    )
    return accession
