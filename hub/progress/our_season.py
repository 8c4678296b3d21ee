"""What a group's season page knows: its adoptions of the season, with all that stands about each in the hub.

Every table is asked once for the whole page, so that the page costs the same for one species and for ten.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any
from uuid import UUID

from sqlalchemy import Row, select

from hub.accessions.models import Accession
from hub.adoptions.models import AdoptedPopulation, Adoption
from hub.adoptions.rules import HOLDING
from hub.db.work import Work
from hub.protocols.models import IssuedSheet, SheetState
from hub.sites.models import Census, Permission, Population, Site, TakeAccount
from hub.taxa.models import Season, Taxon
from hub.vetting.models import Submission
from hub.vetting.rules import SubmissionState

GIVEN_UP = (SubmissionState.WITHDRAWN, SubmissionState.DECLINED)


@dataclass(frozen=True)
class Claim:
    """One adoption at one of its populations; without a place while it holds none."""

    adoption: Adoption
    taxon: Taxon
    population: Population | None = None
    site: Site | None = None
    permission: Permission | None = None
    census: Census | None = None
    sheet: IssuedSheet | None = None
    submission: Submission | None = None
    accession: Accession | None = None
    account: TakeAccount | None = None


def claims(work: Work, season: Season) -> list[Claim]:
    """All that the asking group holds in a season, or has asked for, in the order in which it asked."""
    held = adoptions_of(work, season)
    ids = [adoption.id for adoption, _ in held]
    places = places_of(work, ids)
    about = About.of(work, season, ids, [place for _, place in places])
    found = []
    for adoption, taxon in held:
        own = [place for adoption_id, place in places if adoption_id == adoption.id]
        found += [about.claim(adoption, taxon, *place) for place in own] or [Claim(adoption, taxon)]
    return found


Place = tuple[Population, Site]


def adoptions_of(work: Work, season: Season) -> Sequence[Row[Adoption, Taxon]]:
    found = (
        select(Adoption, Taxon)
        .join(Taxon, Taxon.id == Adoption.taxon_id)
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
    submissions: dict[tuple[UUID, UUID], Submission]
    accessions: dict[UUID, Accession]
    accounts: dict[UUID, TakeAccount]

    @classmethod
    def of(cls, work: Work, season: Season, adoption_ids: Sequence[UUID], places: Iterable[Place]) -> About:
        site_ids = {site.id for _, site in places}
        population_ids = {population.id for population, _ in places}
        submissions = submissions_of(work, adoption_ids)
        return cls(
            permissions={each.site_id: each for each in permissions_of(work, site_ids)},
            censuses={each.population_id: each for each in censuses_of(work, season, population_ids)},
            sheets={(each.adoption_id, each.population_id): each for each in sheets_of(work, adoption_ids)},
            submissions={(each.adoption_id, each.population_id): each for each in submissions},
            accessions={each.submission_id: each for each in accessions_of(work, submissions)},
            accounts={each.population_id: each for each in accounts_of(work, season, population_ids)},
        )

    def claim(self, adoption: Adoption, taxon: Taxon, population: Population, site: Site) -> Claim:
        submission = self.submissions.get((adoption.id, population.id))
        return Claim(
            adoption,
            taxon,
            population,
            site,
            self.permissions.get(site.id),
            self.censuses.get(population.id),
            self.sheets.get((adoption.id, population.id)),
            submission,
            self.accessions.get(submission.id) if submission else None,
            self.accounts.get(population.id),
        )


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


def submissions_of(work: Work, adoption_ids: Sequence[UUID]) -> list[Submission]:
    found = select(Submission).where(
        Submission.adoption_id.in_(adoption_ids), Submission.state.not_in(GIVEN_UP)
    )
    return list(work.db.scalars(found.order_by(Submission.begun_at, Submission.id)))


def accessions_of(work: Work, submissions: Iterable[Submission]) -> list[Accession]:
    found = select(Accession).where(Accession.submission_id.in_([each.id for each in submissions]))
    return list(work.db.scalars(found))


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
