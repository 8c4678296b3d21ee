"""From the hub's records to a case: everything known of one adoption at one population, today."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from uuid import UUID

from sqlalchemy import select

from hub.adoptions.models import Adoption
from hub.db.work import Work
from hub.groups.models import Bank, Group, GroupKind
from hub.protocols.caps import spoken_for
from hub.protocols.case import (
    BankFacts,
    Case,
    CropFacts,
    HistoryFacts,
    PartyFacts,
    PermissionFacts,
    PermitFacts,
    PopulationFacts,
    SalvageFacts,
    SignOff,
    SiteRisk,
    TaxonFacts,
    Trend,
)
from hub.protocols.models import IssuedSheet, SheetState, SignOffRecord
from hub.sites import queries as sites
from hub.sites.models import Census, Permission, Permit, Population, Site, TakeAccount
from hub.sites.rules import Origin, PermissionState, Threat
from hub.taxa import queries as taxa
from hub.taxa.models import Evidence, Season, Standing, StandingKind, Taxon
from hub.taxa.rules import Hazard

WILD = {Origin.WILD: True, Origin.SOWN: False, Origin.UNKNOWN: None}
CONFIRMED = frozenset({Evidence.PUBLISHED, Evidence.SECONDARY})
TWO_SIDED_95 = 2 * 1.959964  # widths of a 95 % interval in standard errors, normal approximation


def facts_of(work: Work, adoption: Adoption, population: Population) -> Case:
    """The case of this adoption at this population on the work's own day."""
    taxon = taxa.get(work, population.taxon_id)
    site = sites.get_site(work, population.site_id)
    season = taxa.get_season(work, adoption.season_id)
    census = sites.latest_census(work, population.id)
    standings = taxa.standings(work, taxon.id)
    bank = work.db.get_one(Bank, adoption.bank_id)
    return Case(
        taxon=taxon_facts(taxon, standings),
        population=population_facts(population, site, census),
        crop=crop_facts(census, season),
        history=history_facts(work, adoption, population, season),
        permission=permission_facts(work, site),
        permit_needed=site.protected_area or any(each.permit_needed for each in standings),
        permits=permits_for(work, taxon, site, adoption),
        sign_off=sign_off_for(work, adoption, population),
        salvage=salvage_facts(work, population, bank),
        bank=BankFacts(name=bank.name, home_freezing=bank.home_freezing),
        party=party_facts(work, adoption),
        season=season.year,
    )


def taxon_facts(taxon: Taxon, standings: Sequence[Standing]) -> TaxonFacts:
    return TaxonFacts(
        name=taxon.scientific_name,
        common_name=taxon.vernacular,
        care_class=taxon.care_class,
        listed=any(each.kind is StandingKind.LISTING for each in standings),
        native=taxon.native,
        life_form=taxon.life_form,
        fruit_type=taxon.fruit_type,
        storage=taxon.storage,
        storage_confirmed=taxon.storage_evidence in CONFIRMED,
        persistent_seed_bank=taxon.persistent_seed_bank,
        clonal=taxon.clonal,
        dioecious=taxon.dioecious,
        two_year_ripening=taxon.two_year_ripening,
        masts=taxon.masting,
        hazards=tuple(Hazard(hazard) for hazard in taxon.hazards),
        trade_controlled=taxon.international_trade_listed,
    )


def population_facts(population: Population, site: Site, census: Census | None) -> PopulationFacts:
    return PopulationFacts(
        name=population.code,
        identity_verified=population.identity_verified,
        wild_origin=WILD[population.origin],
        plants=census.plants if census else None,
        fruiting_plants=census.fruiting_plants if census else None,
        fruiting_plants_se=fruiting_error(census),
        trend=Trend(population.trend),
        severe_threat=population.threat in (Threat.SEVERE, Threat.IMMINENT_LOSS),
        site_risks=tuple(SiteRisk(risk) for risk in site.risks if risk in set(SiteRisk)),
        protected_area=site.protected_area,
        indigenous_land=site.own_consent_needed,
    )


def fruiting_error(census: Census | None) -> float | None:
    """Standard error of the fruiting plants: that of the count of plants, in the same proportion."""
    if census is None or not census.plants or census.fruiting_plants is None:
        return None
    if census.plants_low is None or census.plants_high is None:
        return None
    return (census.plants_high - census.plants_low) / TWO_SIDED_95 * census.fruiting_plants / census.plants


def crop_facts(census: Census | None, season: Season) -> CropFacts:
    """What was counted of this season's crop. Last year's fruits say nothing of this year's."""
    if census is None or census.counted_on.year != season.year:
        return CropFacts()
    return CropFacts(
        ripe_fruits_per_plant=census.fruits_per_plant, good_seeds_per_fruit=census.seeds_per_fruit
    )


def history_facts(work: Work, adoption: Adoption, population: Population, season: Season) -> HistoryFacts:
    """Earlier years in which seed was taken, and what others have taken or reserved this year."""
    accounts = work.db.scalars(select(TakeAccount).where(TakeAccount.population_id == population.id)).all()
    this_year = next((account for account in accounts if account.year == season.year), None)
    reserved = this_year.reserved_seeds if this_year else 0
    own = kept_for(work, adoption.id, population.id)
    return HistoryFacts(
        years_collected=tuple(sorted(each.year for each in accounts if earlier_take(each, season))),
        taken_seeds=this_year.taken_seeds if this_year else 0,
        reserved_seeds=max(0, reserved - own),
    )


def earlier_take(account: TakeAccount, season: Season) -> bool:
    return account.year < season.year and account.taken_seeds > 0


def kept_for(work: Work, adoption_id: UUID, population_id: UUID) -> int:
    """Seeds that this adoption's own current sheets keep free: a new sheet takes their place."""
    found = select(IssuedSheet.reserved_seeds).where(
        IssuedSheet.adoption_id == adoption_id,
        IssuedSheet.population_id == population_id,
        IssuedSheet.state == SheetState.CURRENT,
    )
    return sum(work.db.scalars(found))


def permission_facts(work: Work, site: Site) -> PermissionFacts:
    """The owner's answer: yes, no, or none yet. A yes that holds today counts, whatever was asked since."""
    answer = sites.permission_on(work, site.id, work.today) or sites.newest_permission(work, site.id)
    if answer is None or answer.state in (PermissionState.TO_ASK, PermissionState.ASKED):
        return PermissionFacts()
    return PermissionFacts(
        granted=answer.state is PermissionState.GRANTED or has_run_out(answer, work.today),
        since=answer.starts_on,
        until=answer.ends_on,
        conditions=stated(answer.conditions),
    )


def has_run_out(permission: Permission, today: date) -> bool:
    """Whether it was a yes whose last day is past: no refusal, but a paper to renew."""
    ended = permission.ends_on is not None and permission.ends_on < today
    return ended and permission.state is PermissionState.EXPIRED


def stated(conditions: str) -> tuple[str, ...]:
    """Conditions as they were written, one a line."""
    return tuple(line for line in conditions.splitlines() if line.strip())


def permits_for(work: Work, taxon: Taxon, site: Site, adoption: Adoption) -> tuple[PermitFacts, ...]:
    """The bank's permits in force today for this taxon at this site.

    Work across all tenants sees every bank's permits; a sheet rests on those of its own bank alone.
    """
    found = sites.permits_on(work, taxon_id=taxon.id, site_id=site.id, day=work.today)
    own = (permit for permit in found if permit.bank_id == site.bank_id)
    return tuple(permit_facts(permit, spoken_for(work, permit, adoption)) for permit in own)


def permit_facts(permit: Permit, used: int) -> PermitFacts:
    return PermitFacts(
        authority=permit.authority,
        number=permit.number,
        since=permit.starts_on,
        until=permit.ends_on,
        cap_seeds=permit.cap_seeds,
        used_seeds=used,
        conditions=stated(permit.conditions),
    )


def sign_off_for(work: Work, adoption: Adoption, population: Population) -> SignOff | None:
    """The curator's standing consent for this adoption and population, the newest one."""
    found = select(SignOffRecord).where(
        SignOffRecord.adoption_id == adoption.id,
        SignOffRecord.population_id == population.id,
        SignOffRecord.ended_at.is_(None),
    )
    newest = work.db.scalars(found.order_by(SignOffRecord.at.desc())).first()
    if newest is None:
        return None
    return SignOff(by=newest.by_name, on=newest.at.astimezone(work.zone).date(), share=newest.share)


def salvage_facts(work: Work, population: Population, bank: Bank) -> SalvageFacts | None:
    """The approved case that the population will be lost; both consents stand behind an approval."""
    case = sites.salvage_of(work, population.id)
    if case is None:
        return None
    site = sites.get_site(work, population.site_id)
    return SalvageFacts(
        curator=bank.name, owner=site.owner_label, evidence=case.evidence, evidence_on=case.evidence_on
    )


def party_facts(work: Work, adoption: Adoption) -> PartyFacts:
    group = work.db.get_one(Group, adoption.group_id)
    return PartyFacts(group=group.name, pupils=group.kind is GroupKind.SCHOOL, crosses_border=False)
