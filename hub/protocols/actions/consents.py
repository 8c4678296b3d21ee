"""A curator’s consent to collect where the rules leave the decision to a curator, within what they allow."""

from __future__ import annotations

from dataclasses import replace
from uuid import UUID

from hub.accounts.queries import get_person
from hub.adoptions import queries as adoptions
from hub.adoptions.models import Adoption
from hub.adoptions.rules import AdoptionState
from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.work import Work
from hub.protocols import queries
from hub.protocols.case import SignOff
from hub.protocols.casework import facts_of
from hub.protocols.engine import issue
from hub.protocols.models import SignOffRecord
from hub.protocols.rulebook_reader import standard_rulebook
from hub.protocols.sheet import Sheet, Status
from hub.sites import queries as sites
from hub.sites.models import Population
from hub.words import Refused, say


def sign_off(
    work: Work, *, adoption_id: UUID, population_id: UUID, share: float, reason: str
) -> SignOffRecord:
    """A curator's consent, with the largest share (0 to 1) of the season's ripe seed that may leave.

    Refuses more than the rules allow a curator here, and where they forbid collecting whoever consents.
    """
    adoption, population = held(work, adoption_id, population_id)
    check_bound(with_consent(work, adoption, population), share)
    consent = SignOffRecord(
        group_id=adoption.group_id,
        bank_id=adoption.bank_id,
        adoption_id=adoption_id,
        population_id=population_id,
        share=share,
        reason=reason,
        by=work.scope.person_id,
        by_name=get_person(work).name,
        at=work.now,
    )
    work.db.add(consent)
    record(work, Event.SIGNED_OFF, consent, after={"share": share}, reason=reason)
    return consent


def take_back(work: Work, *, consent_id: UUID, reason: str) -> None:
    """End a consent before its year is over."""
    consent = queries.get_consent(work, consent_id)
    if consent.ended_at is not None:
        raise Refused(say("This consent was already taken back."))
    consent.ended_at = work.now
    record(work, Event.SIGNED_OFF, consent, before={"share": consent.share}, reason=reason)


def held(work: Work, adoption_id: UUID, population_id: UUID) -> tuple[Adoption, Population]:
    """An active adoption and a population that it holds."""
    adoption = adoptions.get(work, adoption_id)
    if adoption.state is not AdoptionState.ACTIVE:
        raise Refused(say("Only an active adoption can be consented to."))
    population = sites.get_population(work, population_id)
    if population.id not in {each.id for each in adoptions.populations_held(work, adoption_id)}:
        raise Refused(say("The adoption does not hold this population."))
    return adoption, population


def with_consent(work: Work, adoption: Adoption, population: Population) -> Sheet:
    """The sheet as it would be if a curator consented to as much as the rules allow."""
    case = facts_of(work, adoption, population)
    everything = SignOff(by="·", on=work.today, share=1.0)
    changes = queries.overrides_for(
        work, bank_id=adoption.bank_id, taxon_id=adoption.taxon_id, population_id=population.id
    )
    return issue(replace(case, sign_off=everything), standard_rulebook(), changes, on=work.today)


def check_bound(sheet: Sheet, share: float) -> None:
    """Raise Refused unless the rules leave the curator this much."""
    if sheet.status is Status.STOP:
        raise Refused(say("No consent can lift this: {reason}", reason=sheet.reasons[0].text))
    bound = sheet.headline.season_share.value
    if not 0 < share <= bound:
        percent = f"{bound * 100:.10g}"
        words = say("The rules allow a curator at most {percent}% here.", percent=percent)
        raise Refused(words, field="share")
