"""A group's season: one path for each adopted species, and what to do next on top."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date
from itertools import zip_longest
from typing import Any

from babel.dates import get_month_names
from flask import current_app, url_for
from werkzeug.wrappers import Response

from hub.accessions.rules import BECAME, AccessionState
from hub.adoptions.rules import UNDER_WAY
from hub.db.work import Work
from hub.progress.known import Known, Step, StepState, Way
from hub.progress.our_season import Claim, HandIn, claims, share_taken
from hub.progress.pages.blueprint import pages
from hub.progress.season_path import path_of
from hub.progress.seed_steps import BANK
from hub.protocols.sheet_words import span
from hub.rights.policy import may
from hub.rights.right import Right
from hub.sites.models import Permission
from hub.sites.rules import PermissionState, holds_on
from hub.taxa import queries as taxa
from hub.taxa.models import Season, Taxon
from hub.web.caller import caller
from hub.web.language import locale, weekday_moment
from hub.web.render import render
from hub.words import Words, say


@dataclass(frozen=True)
class Walk:
    """One claim with a path for each of its collections, and how urgent the first of them is."""

    claim: Claim
    paths: list[list[Step]]
    account: dict[str, Any] | None

    @property
    def steps(self) -> list[Step]:
        """The path that is drawn: of the collection that needs the group most."""
        return self.paths[0]

    @property
    def nexts(self) -> list[tuple[Step | None, HandIn | None]]:
        """What comes next for each collection; for none yet, what comes next at all."""
        return [
            (next((step for step in steps if step.state is StepState.NEXT), None), hand_in)
            for steps, hand_in in zip_longest(self.paths, self.claim.hand_ins)
        ]

    @property
    def sheet(self) -> tuple[Way, ...]:
        """The way to the sheet that holds now."""
        issued = self.claim.sheet
        if issued is None:
            return ()
        return (Way(say("{number}", number=issued.number), "protocols.sheet", {"sheet_id": issued.id}),)

    @property
    def again(self) -> tuple[Way, ...]:
        """The way to a further collection, as long as the sheet that holds now leaves seed to take."""
        issued = self.claim.sheet
        if issued is None or issued.status != "ready" or not issued.reserved_seeds:
            return ()
        return (Way(say("We have collected here again"), "vetting.new_hand_in", {"sheet": issued.id}),)

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
        walks=sorted(walks, key=lambda each: each.urgency),
        tasks=tasks(walks),
        link=link,
        opened=opened,
    )


@dataclass(frozen=True)
class Task:
    """One thing to do next: a step of a walk, for one of its collections where there are several."""

    walk: Walk
    step: Step
    number: str


def tasks(walks: Iterable[Walk]) -> list[Task]:
    """All that comes next: what the group does before what it waits for, the furthest first."""
    found = [
        Task(walk, step, hand_in.submission.number if hand_in and len(walk.paths) > 1 else "")
        for walk in sorted(walks, key=lambda each: each.urgency)
        for step, hand_in in walk.nexts
        if step
    ]
    return sorted(found, key=lambda each: each.step.person == BANK)


def walk(work: Work, season: Season, claim: Claim) -> Walk:
    at_hand = claim.adoption.state in UNDER_WAY
    account = share_taken(claim.account) if claim.account and at_hand else None
    facts = known(work, season, claim)
    paths = [path_of(replace(facts, **hand_in_known(work, each))) for each in claim.hand_ins]
    return Walk(claim, paths or [path_of(facts)], account)


def known(work: Work, season: Season, claim: Claim) -> Known:
    """The facts that every path of a claim is drawn from."""
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
        bank=claim.bank,
        **place_known(work, claim),
    )


def hand_in_known(work: Work, hand_in: HandIn) -> dict[str, Any]:
    """What is known of one collection."""
    submission, accession = hand_in.submission, hand_in.accession
    due = submission.deadline_at
    return {
        "submission_id": submission.id,
        "submission": submission.state,
        "collected_on": hand_in.collected_on,
        "due": weekday_moment(due) if due else "",
        "overdue": due is not None and due < work.now,
        "span": span(hand_in.hours) if hand_in.hours else None,
        "arrived": bool(submission.arrived_at or submission.said_arrived_on),
        "accession_number": accession.number if accession else "",
        "became": BECAME[accession.state] if accession else None,
        "safe": accession is not None and accession.state is not AccessionState.PROCESSING,
    }


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
