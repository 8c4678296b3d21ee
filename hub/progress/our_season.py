"""What a group's season page knows: its adoptions of the season, with all that stands about each in the hub.

Every table is asked once for the whole page, so that the page costs the same for one species and for ten.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Any
from uuid import UUID

from sqlalchemy import Row, and_, select

from hub.accessions.models import Accession
from hub.adoptions.models import AdoptedPopulation, Adoption
from hub.adoptions.rules import HOLDING
from hub.db.work import Work
from hub.groups.models import Bank
from hub.protocols.models import IssuedSheet, SheetState
from hub.sites.models import Census, Permission, Population, Site, TakeAccount
from hub.taxa.models import Season, Taxon
from hub.vetting.models import Revision, Submission
from hub.vetting.rules import SubmissionState

GIVEN_UP = (SubmissionState.WITHDRAWN, SubmissionState.DECLINED)
NEEDS_US_MOST = (
    SubmissionState.RETURNED, SubmissionState.DRAFT, SubmissionState.HANDED_IN, SubmissionState.APPROVED,
)  # fmt: skip


@dataclass(frozen=True)
class HandIn:
    """One collection of a claim: begun, or handed in, or already an accession."""

    submission: Submission
    collected_on: date | None = None
    hours: int | None = None  # from plant to bank, by its own sheet
    accession: Accession | None = None


@dataclass(frozen=True)
class Claim:
    """One adoption at one of its populations; without a place while it holds none."""

    adoption: Adoption
    taxon: Taxon
    bank: str  # its name
    population: Population | None = None
    site: Site | None = None
    permission: Permission | None = None
    census: Census | None = None
    sheet: IssuedSheet | None = None
    hand_ins: tuple[HandIn, ...] = ()  # what needs the group most comes first
    account: TakeAccount | None = None


def claims(work: Work, season: Season) -> list[Claim]:
    """All that the asking group holds in a season, or has asked for, in the order in which it asked."""
    held = adoptions_of(work, season)
    ids = [adoption.id for adoption, _, _ in held]
    places = places_of(work, ids)
    about = About.of(work, season, ids, [place for _, place in places])
    found = []
    for adoption, taxon, bank in held:
        bare = Claim(adoption, taxon, bank)
        own = [place for adoption_id, place in places if adoption_id == adoption.id]
        found += [about.filled(bare, *place) for place in own] or [bare]
    return found


Place = tuple[Population, Site]


def adoptions_of(work: Work, season: Season) -> Sequence[Row[Adoption, Taxon, str]]:
    """Each with its species and the name of its bank."""
    found = (
        select(Adoption, Taxon, Bank.name)
        .join(Taxon, Taxon.id == Adoption.taxon_id)
        .join(Bank, Bank.id == Adoption.bank_id)
        .where(
            Adoption.group_id == work.scope.own_group_id,
            Adoption.season_id == season.id,
            Adoption.state.in_(HOLDING),
        )
    )
    return work.db.execute(found.order_by(Adoption.asked_at, Adoption.id)).all()


def places_of(work: Work, adoption_ids: Sequence[UUID]) -> list[tuple[UUID, Place]]:
    """Each adoption's populations with their sites."""
    found = (
        select(AdoptedPopulation.adoption_id, Population, Site)
        .join(Population, Population.id == AdoptedPopulation.population_id)
        .join(Site, Site.id == Population.site_id)
        .where(AdoptedPopulation.adoption_id.in_(adoption_ids))
        .order_by(Population.code, Population.id)
    )
    return [(adoption_id, (population, site)) for adoption_id, population, site in work.db.execute(found)]


@dataclass(frozen=True)
class About:
    """What the tables say of all these adoptions and places, by the keys that a claim is looked up with."""

    permissions: dict[UUID, Permission]
    censuses: dict[UUID, Census]
    sheets: dict[tuple[UUID, UUID], IssuedSheet]
    hand_ins: list[HandIn]
    accounts: dict[UUID, TakeAccount]

    @classmethod
    def of(cls, work: Work, season: Season, adoption_ids: Sequence[UUID], places: Iterable[Place]) -> About:
        site_ids = {site.id for _, site in places}
        population_ids = {population.id for population, _ in places}
        return cls(
            permissions={each.site_id: each for each in permissions_of(work, site_ids)},
            censuses={each.population_id: each for each in censuses_of(work, season, population_ids)},
            sheets={(each.adoption_id, each.population_id): each for each in sheets_of(work, adoption_ids)},
            hand_ins=hand_ins_of(work, adoption_ids),
            accounts={each.population_id: each for each in accounts_of(work, season, population_ids)},
        )

    def filled(self, claim: Claim, population: Population, site: Site) -> Claim:
        """A claim at one of its populations."""
        adoption = claim.adoption
        return replace(
            claim,
            population=population,
            site=site,
            permission=self.permissions.get(site.id),
            census=self.censuses.get(population.id),
            sheet=self.sheets.get((adoption.id, population.id)),
            hand_ins=tuple(each for each in self.hand_ins if belongs(each.submission, adoption, population)),
            account=self.accounts.get(population.id),
        )


def belongs(submission: Submission, adoption: Adoption, population: Population) -> bool:
    return submission.adoption_id == adoption.id and submission.population_id == population.id


# Where several rows share a key the last one stays, so each of these ends with the row that counts.


def permissions_of(work: Work, site_ids: Iterable[UUID]) -> list[Permission]:
    found = select(Permission).where(Permission.site_id.in_(list(site_ids)))
    return list(work.db.scalars(found.order_by(Permission.noted_at, Permission.id)))


def censuses_of(work: Work, season: Season, population_ids: Iterable[UUID]) -> list[Census]:
    """Counts of this year: last year's say nothing of this year's fruit."""
    found = select(Census).where(
        Census.population_id.in_(list(population_ids)), Census.counted_on >= date(season.year, 1, 1)
    )
    return list(work.db.scalars(found.order_by(Census.counted_on, Census.noted_at, Census.id)))


def sheets_of(work: Work, adoption_ids: Sequence[UUID]) -> list[IssuedSheet]:
    found = select(IssuedSheet).where(
        IssuedSheet.adoption_id.in_(adoption_ids), IssuedSheet.state == SheetState.CURRENT
    )
    return list(work.db.scalars(found))


HOURS = IssuedSheet.body["headline"]["hours_to_bank"]["value"].as_integer()
COLLECTED_ON = Revision.data["collected_on"].as_string()


def hand_ins_of(work: Work, adoption_ids: Sequence[UUID]) -> list[HandIn]:
    """What stands of these adoptions’ collections, each with what its sheet and newest revision say."""
    newest = and_(Revision.submission_id == Submission.id, Revision.number == Submission.revision)
    found = (
        select(Submission, COLLECTED_ON, HOURS, Accession)
        .join(IssuedSheet, IssuedSheet.id == Submission.sheet_id)
        .outerjoin(Revision, newest)
        .outerjoin(Accession, Accession.submission_id == Submission.id)
        .where(Submission.adoption_id.in_(adoption_ids), Submission.state.not_in(GIVEN_UP))
        .order_by(Submission.begun_at, Submission.id)
    )
    rows = [
        HandIn(submission, date.fromisoformat(day) if day else None, hours, accession)
        for submission, day, hours, accession in work.db.execute(found)
    ]
    return sorted(rows, key=lambda each: NEEDS_US_MOST.index(each.submission.state))


def accounts_of(work: Work, season: Season, population_ids: Iterable[UUID]) -> list[TakeAccount]:
    found = select(TakeAccount).where(
        TakeAccount.population_id.in_(list(population_ids)), TakeAccount.year == season.year
    )
    return list(work.db.scalars(found))


def share_taken(account: TakeAccount) -> dict[str, Any] | None:
    """The part of a population's allowance that has left it, all groups together; None where none was set."""
    if not account.allowance_seeds:
        return None
    return {
        "share": min(1.0, account.taken_seeds / account.allowance_seeds),
        "taken": account.taken_seeds,
        "allowed": account.allowance_seeds,
        "left": max(0, account.allowance_seeds - account.reserved_seeds - account.taken_seeds),
    }
