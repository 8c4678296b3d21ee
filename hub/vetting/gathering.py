"""Gather the evidence for one submission, as its bank sees it.

A group hands in, but the checks look further than a group may: at all that left the population this year, at
what other groups have handed in. So they read with the bank's eyes, and what they find stays with the bank.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import date
from uuid import UUID

from sqlalchemy import func, select

from hub.db.tenancy import ScopedSession
from hub.db.work import Work
from hub.groups.models import District
from hub.protocols.models import IssuedSheet, SheetState
from hub.protocols.queries import get_sheet, sheet_of
from hub.rights.scope import Role, Scope
from hub.science.distance import Position
from hub.sites import queries as sites
from hub.sites.models import Permission, Permit, Population, Site, TakeAccount
from hub.taxa.models import Ecoregion, Taxon, TaxonEcoregion
from hub.taxa.queries import get_season
from hub.vetting import evidence, queries
from hub.vetting.collection import Collection, most_by_year
from hub.vetting.models import Photograph, Revision, Submission
from hub.vetting.rules import SubmissionState

MOST_EARLIER = 200  # other collections of the taxon that the checks compare with, the newest first
COMPARED = (SubmissionState.HANDED_IN, SubmissionState.RETURNED, SubmissionState.APPROVED)


def gather(work: Work, submission: Submission, revision: Revision) -> evidence.Evidence:
    """Everything that the checks may look at for one revision."""
    collection = queries.collection_of(revision)
    issued = get_sheet(work, submission.sheet_id)
    account = account_of(work, issued, collection.collected_on)
    with as_bank(work, submission.bank_id) as bank:
        population = sites.get_population(bank, submission.population_id)
        site = sites.get_site(bank, population.site_id)
        return evidence.Evidence(
            number=submission.number,
            revision=revision.number,
            handed_in_at=revision.handed_in_at,
            zone=work.zone,
            collection=collection,
            sheet=sheet_facts(work, issued),
            taxon=taxon_facts(bank, submission.taxon_id),
            place=place_of(bank, population, site),
            papers=papers_on(bank, population, site, collection.collected_on, account),
            censuses=counts_of(bank, population.id),
            account=account_facts(account),
            entered_seeds=entered(work, submission, collection.collected_on.year),
            photographs=tuple(photograph_facts(each) for each in queries.photographs_of(work, revision)),
            earlier=tuple(earlier(bank, submission)),
        )


@contextmanager
def as_bank(work: Work, bank_id: UUID) -> Iterator[Work]:
    """The same moment as the bank sees it: all its groups' committed work, and nothing of any other bank."""
    if work.scope.own_bank_id or work.scope.spans_tenants:
        yield work
        return
    seat = Scope(role=Role.TECHNICIAN, bank_id=bank_id, region_id=work.scope.region_id)
    bind = work.db.get_bind().execution_options(reads_only=True)
    with ScopedSession.of(seat, bind=bind, expire_on_commit=False) as session:
        yield replace(work, db=session, scope=seat)


def sheet_facts(work: Work, issued: IssuedSheet) -> evidence.SheetFacts:
    return evidence.SheetFacts(
        number=issued.number,
        sheet=sheet_of(issued),
        issued_on=issued.issued_at.astimezone(work.zone).date(),
        ended_on=issued.ended_at.astimezone(work.zone).date() if issued.ended_at else None,
        withdrawn=issued.state is SheetState.WITHDRAWN,
        reason=issued.reason,
        closes_on=get_season(work, issued.season_id).closes_on,
    )


def taxon_facts(bank: Work, taxon_id: UUID) -> evidence.TaxonFacts:
    taxon = bank.db.get_one(Taxon, taxon_id)
    grows = select(Ecoregion.geometry).join(TaxonEcoregion, TaxonEcoregion.ecoregion_id == Ecoregion.id)
    return evidence.TaxonFacts(
        name=taxon.canonical,
        care_class=taxon.care_class,
        storage=taxon.storage,
        ripens_from=taxon.ripens_from,
        ripens_to=taxon.ripens_to,
        seeds_per_fruit=taxon.seeds_per_fruit,
        diagnostic_parts=taxon.diagnostic_parts,
        range=tuple(bank.db.scalars(grows.where(TaxonEcoregion.taxon_id == taxon_id))),
    )


def place_of(bank: Work, population: Population, site: Site) -> evidence.Place:
    region = select(District.region_id).where(District.id == site.district_id).scalar_subquery()
    districts = select(District.geometry).where(District.region_id == region)
    return evidence.Place(
        population=population.code,
        position=sites.position_of(population),
        uncertainty_m=population.uncertainty_m,
        site=site.name,
        site_position=sites.position_of(site),
        site_radius_m=site.radius_m,
        site_outline=site.outline,
        districts=tuple(bank.db.scalars(districts)),
    )


def papers_on(
    bank: Work, population: Population, site: Site, day: date, account: TakeAccount | None
) -> evidence.Papers:
    permission = sites.permission_on(bank, site.id, day)
    permits = sites.permits_on(bank, taxon_id=population.taxon_id, site_id=site.id, day=day)
    return evidence.Papers(
        permission=permission_facts(permission),
        permits=tuple(permit_facts(bank, permit, account) for permit in permits),
        missing=tuple(sites.missing_papers(bank, site=site, taxon_id=population.taxon_id, day=day)),
    )


def permission_facts(permission: Permission | None) -> evidence.PermissionHeld | None:
    if permission is None:
        return None
    return evidence.PermissionHeld(permission.starts_on, permission.ends_on, permission.conditions)


def permit_facts(bank: Work, permit: Permit, account: TakeAccount | None) -> evidence.PermitHeld:
    """One permit, with what was taken under it: the account of this population counts as it is by now."""
    others = select(func.sum(TakeAccount.taken_seeds)).join(
        Population, Population.id == TakeAccount.population_id
    )
    others = others.where(TakeAccount.year.between(permit.starts_on.year, permit.ends_on.year))
    if permit.taxon_id is not None:
        others = others.where(Population.taxon_id == permit.taxon_id)
    if permit.site_id is not None:
        others = others.where(Population.site_id == permit.site_id)
    if account is not None:
        others = others.where(TakeAccount.id != account.id)
    return evidence.PermitHeld(
        authority=permit.authority,
        number=permit.number,
        starts_on=permit.starts_on,
        ends_on=permit.ends_on,
        cap_seeds=permit.cap_seeds,
        used_seeds=int(bank.db.scalar(others) or 0) + (account.taken_seeds if account else 0),
        conditions=permit.conditions,
    )


def counts_of(bank: Work, population_id: UUID) -> tuple[evidence.Count, ...]:
    return tuple(
        evidence.Count(
            each.counted_on, each.plants, each.fruiting_plants, each.fruits_per_plant, each.seeds_per_fruit
        )
        for each in sites.censuses(bank, population_id)
    )


def account_of(work: Work, issued: IssuedSheet, day: date) -> TakeAccount | None:
    """The account of that day's year as this very work has left it: what is handed in now counts already."""
    return sites.take_account(work, issued.population_id, day.year)


def entered(work: Work, submission: Submission, year: int) -> int:
    return most_by_year(queries.handed_in_so_far(work, submission)).get(year, 0)


def account_facts(account: TakeAccount | None) -> evidence.Account | None:
    if account is None:
        return None
    return evidence.Account(account.allowance_seeds, account.reserved_seeds, account.taken_seeds)


def photograph_facts(photograph: Photograph) -> evidence.PhotographFacts:
    where = None
    if photograph.latitude is not None and photograph.longitude is not None:
        where = Position(latitude=photograph.latitude, longitude=photograph.longitude)
    return evidence.PhotographFacts(photograph.id, photograph.kind, where, photograph.taken_at)


def earlier(bank: Work, submission: Submission) -> Iterator[evidence.Earlier]:
    """Other collections of the taxon in the bank, each in its newest revision."""
    found = (
        select(Submission, Revision)
        .join(
            Revision,
            (Revision.submission_id == Submission.id) & (Revision.number == Submission.revision),
        )
        .where(
            Submission.bank_id == submission.bank_id,
            Submission.taxon_id == submission.taxon_id,
            Submission.id != submission.id,
            Submission.state.in_(COMPARED),
        )
    )
    for other, revision in bank.db.execute(
        found.order_by(Submission.handed_in_at.desc(), Submission.id).limit(MOST_EARLIER)
    ):
        yield evidence.Earlier(
            number=other.number,
            collection=Collection.from_document(revision.data),
            approved=other.state is SubmissionState.APPROVED,
            same_population=other.population_id == submission.population_id,
            same_group=other.group_id == submission.group_id,
        )
