"""From the hub's records to a case: everything known of one adoption at one population, today."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from uuid import UUID

from sqlalchemy import func, select

from hub.adoptions.models import Adoption
from hub.adoptions.rules import ONE_GROUP_PER_POPULATION
from hub.db.work import Work
from hub.groups.models import Bank, Group
from hub.groups.rules import GroupKind
from hub.protocols.caps import groups_holding, spoken_for
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
from hub.sites.rules import Origin, Paper, PermissionState, Threat
from hub.taxa import queries as taxa
from hub.taxa.models import Evidence, Season, Standing, Taxon
from hub.taxa.rules import Hazard
from hub.taxa.standings import is_listed, needs_permit

WILD = {Origin.WILD: True, Origin.SOWN: False, Origin.UNKNOWN: None}
SEVERE = {Threat.NONE: False, Threat.SLIGHT: False, Threat.SEVERE: True, Threat.IMMINENT_LOSS: True}
RECKONED_WITH = 2  # groups, where several may hold a population
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
        population=population_facts(population, site, census, disease_seen(work, population)),
        crop=crop_facts(census, season),
        history=history_facts(work, adoption, taxon, population, season),
        permission=permission_facts(work, site),
        permit_needed=permit_needed(site, standings),
        permits=permits_for(work, taxon, site, adoption),
        missing_papers=missing_papers(work, taxon, site),
        sign_off=sign_off_for(work, adoption, population),
        salvage=salvage_facts(work, population, bank),
        bank=BankFacts(name=bank.name, home_freezing=bank.home_freezing),
        party=party_facts(work, adoption),
        season=season.year,
    )


def permit_needed(site: Site, standings: Sequence[Standing]) -> bool | None:
    """Yes as soon as the land or one list asks for a permit; no only when both have been looked at."""
    if site.protected_area or needs_permit(standings):
        return True
    return False if site.protected_area is False and is_listed(standings) is not None else None


def taxon_facts(taxon: Taxon, standings: Sequence[Standing]) -> TaxonFacts:
    return TaxonFacts(
        name=taxon.scientific_name,
        common_name=taxon.vernacular,
        care_class=taxon.care_class,
        listed=is_listed(standings),
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
        hazards=None if taxon.hazards is None else tuple(Hazard(hazard) for hazard in taxon.hazards),
        trade_controlled=taxon.international_trade_listed,
    )


def risks_at(site: Site) -> tuple[SiteRisk, ...] | None:
    if site.risks is None:
        return None
    return tuple(SiteRisk(risk) for risk in site.risks if risk in set(SiteRisk))


def disease_seen(work: Work, population: Population) -> bool | None:
    """What was said last of a disease; a later count that is silent about it does not make it go away."""
    told = (each.disease_seen for each in reversed(sites.censuses(work, population.id)))
    return next((seen for seen in told if seen is not None), None)


def population_facts(
    population: Population, site: Site, census: Census | None, disease: bool | None
) -> PopulationFacts:
    return PopulationFacts(
        name=population.code,
        identity_verified=population.identity_verified,
        wild_origin=WILD[population.origin],
        plants=census.plants if census else None,
        fruiting_plants=census.fruiting_plants if census else None,
        fruiting_plants_se=fruiting_error(census),
        trend=Trend(population.trend),
        severe_threat=SEVERE.get(population.threat),
        site_risks=risks_at(site),
        disease_known=disease,
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
        ripe_fruits_per_plant=census.fruits_per_plant,
        ripe_fruits_per_plant_se=census.fruits_per_plant_se,
        good_seeds_per_fruit=census.seeds_per_fruit,
        good_seeds_per_fruit_se=census.seeds_per_fruit_se,
        plants_counted=census.plants_counted,
        poor_year=census.poor_year,
        empty_share=census.empty_share,
        immature_share=census.immature_share,
    )


def history_facts(
    work: Work, adoption: Adoption, taxon: Taxon, population: Population, season: Season
) -> HistoryFacts:
    """Earlier years in which seed was taken, and what others have taken or reserved this year."""
    accounts = work.db.scalars(select(TakeAccount).where(TakeAccount.population_id == population.id)).all()
    this_year = next((account for account in accounts if account.year == season.year), None)
    reserved = this_year.reserved_seeds if this_year else 0
    own = kept_for(work, adoption.id, population.id)
    return HistoryFacts(
        years_collected=years_collected(population, accounts, season),
        taken_seeds=this_year.taken_seeds if this_year else 0,
        reserved_seeds=max(0, reserved - own),
        own_seeds=taken_by(work, adoption.id, population.id),
        groups_here=sharing(work, taxon, population, season),
    )


def years_collected(
    population: Population, accounts: Sequence[TakeAccount], season: Season
) -> tuple[int, ...] | None:
    """The hub's own years and those before it; unknown until somebody has said something of the latter."""
    before = population.years_collected_before
    if before is None:
        return None
    own = (each.year for each in accounts if earlier_take(each, season))
    return tuple(sorted({*own, *(year for year in before if year < season.year)}))


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


def taken_by(work: Work, adoption_id: UUID, population_id: UUID) -> int:
    """Seeds taken under any sheet of this adoption, whether it still holds or not."""
    found = select(func.sum(IssuedSheet.taken_seeds)).where(
        IssuedSheet.adoption_id == adoption_id, IssuedSheet.population_id == population_id
    )
    return int(work.db.scalar(found) or 0)


def sharing(work: Work, taxon: Taxon, population: Population, season: Season) -> int:
    """Among how many groups the allowance is shared: where several may come, room is left for a second.

    So no sheet changes, or tells of a neighbour, when that second group does come.
    """
    if taxon.care_class in ONE_GROUP_PER_POPULATION:
        return 1
    return max(RECKONED_WITH, groups_holding(work, population.id, season.id))


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


def missing_papers(work: Work, taxon: Taxon, site: Site) -> tuple[Paper, ...]:
    """What is missing beside the owner’s permission, of which the case says more; vetting asks the same."""
    missing = sites.missing_papers(work, site=site, taxon_id=taxon.id, day=work.today)
    return tuple(paper for paper in missing if paper is not Paper.PERMISSION)


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
    return PartyFacts(group=group.name, pupils=group.kind is GroupKind.SCHOOL)
