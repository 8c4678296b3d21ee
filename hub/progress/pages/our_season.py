"""A group's season: one path for each adopted species, and what to do next on top."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Any

from babel.dates import get_month_names
from flask import current_app, url_for
from werkzeug.wrappers import Response

from hub.db.work import Work
from hub.progress.known import Known, Step, StepState, Way
from hub.progress.our_season import Claim, claims, share_taken
from hub.progress.pages.blueprint import pages
from hub.progress.season_path import path_of
from hub.rights.policy import may
from hub.rights.right import Right
from hub.sites.models import Permission
from hub.sites.rules import PermissionState, holds_on
from hub.taxa import queries as taxa
from hub.taxa.models import Season, Taxon
from hub.web.caller import caller
from hub.web.language import locale
from hub.web.render import render
from hub.words import Words, say


@dataclass(frozen=True)
class Walk:
    """One claim with its path, the step to take next and how urgent that is."""

    claim: Claim
    steps: list[Step]
    account: dict[str, Any] | None

    @property
    def next(self) -> Step | None:
        return next((step for step in self.steps if step.state is StepState.NEXT), None)

    @property
    def sheet(self) -> tuple[Way, ...]:
        """The way to the sheet that holds now."""
        issued = self.claim.sheet
        if issued is None:
            return ()
        return (Way(say("{number}", number=issued.number), "protocols.sheet", {"sheet_id": issued.id}),)

    @property
    def urgency(self) -> int:
        """The further the seed, the sooner: what is picked spoils, what is still green waits."""
        return -sum(step.done for step in self.steps)


@pages.get("/our-season", needs=Right.SUBMISSION_WRITE)
def our_season(work: Work) -> Response:
    bank_id = work.scope.bank_id
    season = taxa.current_season(work, bank_id) if bank_id else None
    walks = [walk(work, season, claim) for claim in claims(work, season)] if season else []
    return render(
        "progress/our_season.html",
        season=season,
        walks=sorted(walks, key=lambda each: (each.next is None, each.urgency)),
        link=link,
        opened=opened,
    )


def walk(work: Work, season: Season, claim: Claim) -> Walk:
    account = share_taken(claim.account) if claim.account else None
    return Walk(claim, path_of(known(work, season, claim)), account)


def known(work: Work, season: Season, claim: Claim) -> Known:
    """The facts that the path is drawn from."""
    adoption, taxon, sheet = claim.adoption, claim.taxon, claim.sheet
    return Known(
        adoption_id=adoption.id,
        state=adoption.state,
        adopted_on=adoption.asked_at.astimezone(work.zone).date(),
        today=work.today,
        storage=taxon.storage,
        ripens_on=date(season.year, taxon.ripens_from, 1) if taxon.ripens_from else None,
        ripe=ripe_words(taxon),
        sheet_id=sheet.id if sheet else None,
        sheet_number=sheet.number if sheet else "",
        sheet_status=sheet.status if sheet else "",
        kept_seeds=sheet.reserved_seeds if sheet else 0,
        submission_id=claim.submission.id if claim.submission else None,
        submission=claim.submission.state if claim.submission else None,
        accession_number=claim.accession.number if claim.accession else "",
        **place_known(work, claim),
    )


def place_known(work: Work, claim: Claim) -> dict[str, Any]:
    """What is known of the place, once there is one."""
    population, site, permission, census = claim.population, claim.site, claim.permission, claim.census
    if population is None or site is None:
        return {}
    return {
        "population_id": population.id,
        "site_id": site.id,
        "owner": site.owner_label,
        "permission": permission.state if permission else None,
        "permission_holds": holds_now(work, permission),
        "permission_asked_on": permission.asked_on if permission else None,
        "permission_until": permission.ends_on if permission else None,
        "counted_on": census.counted_on if census else None,
        "plants": census.plants if census else None,
    }


def holds_now(work: Work, permission: Permission | None) -> bool:
    """Whether the owner's yes is in force, or will be from a day to come."""
    if permission is None or permission.state is not PermissionState.GRANTED:
        return False
    return holds_on(work.today, None, permission.ends_on, permission.withdrawn_on)


def ripe_words(taxon: Taxon) -> Words | None:
    """The months in which fruit is usually ripe, in the reader's language."""
    names = get_month_names("wide", context="stand-alone", locale=locale())
    if taxon.ripens_from is None:
        return None
    first, last = names[taxon.ripens_from], names[taxon.ripens_to or taxon.ripens_from]
    if first == last:
        return say("usually in {month}", month=first)
    return say("usually {first} to {last}", first=first, last=last)


def link(way: Way) -> str:
    return url_for(way.endpoint, **way.values)


def opened(ways: Iterable[Way]) -> list[Way]:
    """The buttons that this seat may press: a member sees what comes next, its lead does the lead's part."""
    views = current_app.view_functions
    return [way for way in ways if may(caller().scope, getattr(views[way.endpoint], "needs"))]  # noqa: B009
