"""The case of a doomed population: evidence, the owner's word and the curator's, in any order."""

from __future__ import annotations

from datetime import date
from uuid import UUID

from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.work import Work
from hub.sites import queries
from hub.sites.models import Salvage
from hub.sites.rules import SALVAGE_MOVES, SalvageState, salvage_state
from hub.words import Refused, say


def ask_salvage(
    work: Work,
    *,
    population_id: UUID,
    evidence: str,
    evidence_on: date,
    evidence_file: str = "",
    loss_expected_on: date | None = None,
) -> Salvage:
    """Open a case with its dated evidence. Raises Refused while another one is open or approved."""
    population = queries.get_population(work, population_id, locked=True)
    newest = queries.newest_salvage(work, population.id)
    if newest is not None and newest.state is not SalvageState.REFUSED:
        words = say("There is a case for this population already: it is “{state}”.", state=newest.state.words)
        raise Refused(words)
    if evidence_on > work.today:
        raise Refused(say("Evidence cannot be from a day still to come."), field="evidence_on")
    case = Salvage(
        bank_id=population.bank_id,
        site_id=population.site_id,
        population_id=population.id,
        state=SalvageState.ASKED,
        evidence=evidence,
        evidence_on=evidence_on,
        evidence_file=evidence_file,
        loss_expected_on=loss_expected_on,
        asked_at=work.now,
    )
    work.db.add(case)
    work.db.flush()
    record(work, Event.SALVAGE_MOVED, case, after={"state": str(case.state), "evidence_on": str(evidence_on)})
    return case


def agree_salvage(work: Work, *, salvage_id: UUID, on: date) -> Salvage:
    """Note that the owner agreed on this day."""
    case = queries.get_salvage(work, salvage_id, locked=True)
    if case.state is SalvageState.REFUSED or case.owner_agreed_on is not None:
        raise Refused(say("The owner’s word does not change this case any more."))
    if on > work.today:
        raise Refused(say("This day is still to come."), field="on")
    case.owner_agreed_on = on
    return settle(work, case, curator=True if case.decided_at else None)


def decide_salvage(work: Work, *, salvage_id: UUID, approve: bool, reason: str) -> Salvage:
    """The curator's decision, with its reason. An approval counts once the owner has agreed too.

    An approved case can still be refused, when the danger has passed.
    """
    case = queries.get_salvage(work, salvage_id, locked=True)
    over = case.state is SalvageState.REFUSED
    if over or (approve and case.decided_at is not None):
        raise Refused(say("This case was decided already."))
    if approve:
        check_loss(work, case)
    case.decided_at, case.decided_by, case.reason = work.now, work.scope.person_id, reason
    return settle(work, case, curator=approve)


def check_loss(work: Work, case: Salvage) -> None:
    """An approval lasts until the plants are lost, so the case must say when. Raises Refused."""
    if case.loss_expected_on is None:
        words = say(
            "The case does not say by when the plants will be lost. Refuse it, and ask for one with that day."
        )
        raise Refused(words)
    if case.loss_expected_on < work.today:
        raise Refused(say("The plants should have been lost by {day}. Ask again.", day=case.loss_expected_on))


def settle(work: Work, case: Salvage, *, curator: bool | None) -> Salvage:
    """Bring the case where its three parts put it, and record what happened."""
    wanted = salvage_state(
        evidence=bool(case.evidence), owner=case.owner_agreed_on is not None, curator=curator
    )
    before = case.state
    if wanted is not before and wanted not in SALVAGE_MOVES[before]:
        raise Refused(say("This case was decided already."))
    case.state = wanted
    after = {"state": str(wanted), "owner_agreed": case.owner_agreed_on is not None, "curator": curator}
    record(work, Event.SALVAGE_MOVED, case, before={"state": str(before)}, after=after, reason=case.reason)
    return case
