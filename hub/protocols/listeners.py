"""What sheets rest on, and the note that they must be drawn up again when it changes."""

from __future__ import annotations

from typing import Any

from hub.adoptions.models import Adoption
from hub.adoptions.queries import populations_held
from hub.adoptions.rules import AdoptionState
from hub.audit.listeners import when
from hub.audit.rules import Event
from hub.db.work import Work
from hub.groups.models import Bank
from hub.protocols import queries
from hub.protocols.actions import end
from hub.protocols.models import IssuedSheet, RuleOverride, SheetRenewal, SheetState, SignOffRecord
from hub.sites.models import Census, Permission, Permit, Population, Salvage, Site
from hub.taxa.models import Taxon
from hub.words import Words, say


def renew(work: Work, reason: Words, **changed: Any) -> None:
    """Note that every current sheet resting on this must be drawn up again."""
    work.db.add(SheetRenewal(at=work.now, reason=reason.as_json(), **changed))


@when(Event.CENSUS_RECORDED)
def counted(work: Work, census: Census) -> None:
    renew(work, say("The plants were counted again."), population_id=census.population_id)


@when(Event.POPULATION_CHANGED)
def population_changed(work: Work, population: Population) -> None:
    renew(work, say("What is known of the population has changed."), population_id=population.id)


@when(Event.SALVAGE_MOVED)
def salvage_moved(work: Work, salvage: Salvage) -> None:
    renew(work, say("The case for saving the seed was decided."), population_id=salvage.population_id)


@when(Event.SIGNED_OFF)
def signed_off(work: Work, consent: SignOffRecord) -> None:
    renew(work, say("A curator’s consent has changed."), population_id=consent.population_id)


@when(Event.PERMISSION_MOVED)
def permission_moved(work: Work, permission: Permission) -> None:
    renew(work, say("The owner’s permission has changed."), site_id=permission.site_id)


@when(Event.SITE_CHANGED)
def site_changed(work: Work, site: Site) -> None:
    renew(work, say("What is known of the site has changed."), site_id=site.id)


@when(Event.PERMIT_RECORDED, Event.PERMIT_ENDED)
def permit_changed(work: Work, permit: Permit) -> None:
    renew(
        work,
        say("A permit was given, or has ended."),
        site_id=permit.site_id,
        taxon_id=permit.taxon_id,
        bank_id=permit.bank_id,
    )


@when(Event.STANDING_CHANGED, Event.TAXON_CHANGED)
def taxon_changed(work: Work, taxon: Taxon) -> None:
    renew(work, say("What is known of the species has changed."), taxon_id=taxon.id)


@when(Event.OVERRIDE_MADE, Event.OVERRIDE_ENDED)
def rule_changed(work: Work, change: RuleOverride) -> None:
    renew(
        work,
        say("The bank has changed a rule."),
        bank_id=change.bank_id,
        taxon_id=change.taxon_id,
        population_id=change.population_id,
    )


@when(Event.BANK_CHANGED)
def bank_changed(work: Work, bank: Bank) -> None:
    renew(work, say("The bank has changed its settings."), bank_id=bank.id)


@when(Event.ADOPTION_MOVED)
def adoption_moved(work: Work, adoption: Adoption) -> None:
    """Nobody collects under an adoption that does not stand, or is fulfilled: its sheets are taken back."""
    if adoption.state in (AdoptionState.REQUESTED, AdoptionState.ACTIVE):
        return
    for issued in queries.current_where(work, IssuedSheet.adoption_id == adoption.id):
        end(
            work,
            issued,
            SheetState.WITHDRAWN,
            reason=str(say("The adoption is fulfilled, or no longer stands.")),
        )


@when(Event.POPULATION_LET_GO)
def population_let_go(work: Work, adoption: Adoption) -> None:
    """Nobody collects from a population that their adoption no longer holds."""
    held = {population.id for population in populations_held(work, adoption.id)}
    for issued in queries.current_where(work, IssuedSheet.adoption_id == adoption.id):
        if issued.population_id not in held:
            end(
                work,
                issued,
                SheetState.WITHDRAWN,
                reason=str(say("The adoption no longer holds this population.")),
            )
