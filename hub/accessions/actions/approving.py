"""Approve a submission into an accession: number, lots, opening entries, thanks, all or nothing."""

from __future__ import annotations

from uuid import UUID, uuid4

from hub.accessions import queries
from hub.accessions.actions.keeping import entered
from hub.accessions.handed_in import collection_of
from hub.accessions.letters import thank
from hub.accessions.lines import LotPlan, lots_for
from hub.accessions.models import Accession, Lot
from hub.accessions.rules import AccessionState, EntryKind
from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.numbering import next_in, with_check
from hub.db.work import Work
from hub.groups.models import Bank
from hub.vetting import actions as vetting
from hub.vetting import queries as submissions
from hub.vetting.actions.moves import check_move
from hub.vetting.collection import Collection
from hub.vetting.models import Submission
from hub.vetting.rules import RemarkKind, SubmissionState
from hub.words import Refused, say

NOT_HERE = say(
    "Nobody at the bank has noted that this seed arrived. Note it first, or tick that you go on without it."
)


def approve(work: Work, *, submission_id: UUID, remark: str = "", without_arrival: bool = False) -> Accession:
    """Make a submission an accession. Approving twice gives the accession there is.

    Raises Refused while a stop is open, for a submission that does not wait for the bank, and for seed that
    nobody has noted as arrived, unless the curator goes on ``without_arrival``.
    """
    submission = submissions.get(work, submission_id, locked=True)
    if submission.state is SubmissionState.APPROVED and (made := queries.of_submission(work, submission_id)):
        return made
    check_move(submission, SubmissionState.APPROVED)
    if submission.arrived_at is None and not without_arrival:
        raise Refused(NOT_HERE, field="without_arrival")
    collection = collection_of(work, submission)
    plans = lots_for(collection)
    vetting.move(work, submission=submission, to=SubmissionState.APPROVED, reason=remark)
    if remark.strip():
        vetting.remark(work, submission=submission, kind=RemarkKind.APPROVE, text=remark.strip())
    accession = numbered(work, submission, collection)
    for plan in plans:
        filled_lot(work, accession, plan)
    thank(work, accession, submission, remark)
    return accession


def numbered(work: Work, submission: Submission, collection: Collection) -> Accession:
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


def filled_lot(work: Work, accession: Accession, plan: LotPlan) -> Lot:
    """One lot with its opening entry. A line of no seed gets its lot all the same: the mother was visited."""
    lot = Lot(
        id=uuid4(),
        bank_id=accession.bank_id,
        accession_id=accession.id,
        label=plan.label,
        kind=plan.kind,
        mother=plan.mother,
        balance_seeds=0,
        place="",
    )
    work.db.add(lot)
    if plan.seeds:
        work.db.flush()  # the entry's foreign key needs the lot to stand
        entered(work, lot, kind=EntryKind.BANKED, seeds=plan.seeds, why=accession.number, estimated=True)
    return lot
