"""A ready sheet of the Fell Group for its moss campion, and collections under it, as people make them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, time, timedelta
from typing import Any
from uuid import UUID, uuid4

from sqlalchemy import select

from hub.adoptions.actions import accept, ask, hold_population
from hub.adoptions.rules import AdoptionState
from hub.protocols.actions import issue
from hub.protocols.models import IssuedSheet
from hub.sites.actions import (
    add_population,
    ask_permission,
    grant_permission,
    open_site,
    record_census,
    share_site,
    verify_identity,
)
from hub.sites.models import Population
from hub.sites.rules import CensusMethod, Origin
from hub.taxa.models import Evidence, Need, Taxon, Wanted
from hub.vetting import actions
from hub.vetting.collection import AfterCare, Bulk, Collection, Container, CutTest, Handling, Tally, Voucher
from hub.vetting.models import Submission
from tests.cast import Cast
from tests.sites.scene import LOOKED_OVER, UNTOUCHED, common, taxon_of

TODAY = date(2031, 7, 14)  # of the cast's moment
COLLECTED = TODAY - timedelta(days=2)
HERE = {"latitude": 47.8, "longitude": -28.2}


@dataclass(frozen=True)
class Scene:
    """Ids of what stands ready, and the sheet as it was issued."""

    taxon_id: UUID
    site_id: UUID
    population_id: UUID
    adoption_id: UUID
    sheet: IssuedSheet


def set_scene(cast: Cast, lead: str = "alice", **traits: Any) -> Scene:
    """A wanted species, a population with permission, census and identity, and a sheet: ready to collect."""
    taxon = wanted_taxon(cast, **traits)
    return sheet_for(cast, taxon, surveyed_population(cast, taxon), lead)


def wanted_taxon(cast: Cast, **traits: Any) -> Taxon:
    """Moss campion on the season's list of both banks; ``traits`` change what is known of it."""
    taxon = taxon_of()
    for name, value in {"storage_evidence": Evidence.PUBLISHED, "ripens_from": 7, "ripens_to": 9}.items():
        setattr(taxon, name, traits.get(name, value))
    for name, value in traits.items():
        setattr(taxon, name, value)
    with cast.everywhere() as work:
        work.db.add(taxon)
        work.db.flush()
        work.db.add_all(common(taxon))
        for season in (cast.season, cast.far_season):
            line = Wanted(season_id=season.id, taxon_id=taxon.id, priority=1, note="")
            work.db.add(line)
            work.db.flush()
            work.db.add(Need(wanted_id=line.id, populations=2))
    return taxon


def surveyed_population(
    cast: Cast, taxon: Taxon, curator: str = "cora", name: str = "Scar Top"
) -> Population:
    """A site of the bank with the owner's permission, and 600 plants on it, 400 of them in fruit."""
    with cast.work(curator) as work:
        site = open_site(
            work,
            name=name,
            district_id=cast.north.id,
            radius_m=300,
            owner_label="The estate",
            locality="",
            **LOOKED_OVER,
            **HERE,
        )
        permission = ask_permission(work, site_id=site.id, on=TODAY - timedelta(days=60))
        grant_permission(
            work,
            permission_id=permission.id,
            answered_on=TODAY - timedelta(days=50),
            starts_on=cast.season.opens_on,
            ends_on=cast.season.closes_on,
        )
        population = add_population(
            work,
            site_id=site.id,
            taxon_id=taxon.id,
            label="by the wall",
            uncertainty_m=10,
            origin=Origin.WILD,
            **UNTOUCHED,
            **HERE,
        )
        verify_identity(work, population_id=population.id, how="a pressed specimen")
        record_census(
            work,
            population_id=population.id,
            counted_on=TODAY - timedelta(days=20),
            method=CensusMethod.COUNTED,
            plants=600,
            fruiting_plants=400,
            fruits_per_plant=30,
            seeds_per_fruit=20,
            plants_counted=12,
            poor_year=False,
        )
    return population


def sheet_for(cast: Cast, taxon: Taxon, population: Population, lead: str = "alice") -> Scene:
    """The group of one of the cast adopts the species and holds the population; its sheet is issued."""
    group_id, curator = cast.seats[lead].group_id, "dora" if lead == "eve" else "cora"
    season = cast.far_season if lead == "eve" else cast.season
    with cast.work(lead) as work:
        adoption = ask(work, season_id=season.id, taxon_id=taxon.id, district_id=cast.north.id, wish="")
    with cast.work(curator) as work:
        if adoption.state is AdoptionState.REQUESTED:
            accept(work, adoption_id=adoption.id)
        share_site(work, site_id=population.site_id, group_id=group_id)
        hold_population(work, adoption_id=adoption.id, population_id=population.id)
    with cast.work(lead, now=cast.now - timedelta(days=7)) as work:  # before anybody goes out
        sheet = issue(work, adoption_id=adoption.id, population_id=population.id)
    return Scene(taxon.id, population.site_id, population.id, adoption.id, sheet)


def collection(**changes: Any) -> Collection:
    """Sixty mothers, one bag each, two days ago; ``changes`` put other values in."""
    whole = Collection(
        collected_on=COLLECTED,
        started_at=time(9, 30),
        finished_at=time(12, 15),
        people=6,
        uncertainty_m=5.0,
        handling=Handling.BY_MOTHER,
        tallies=tuple(Tally(f"A{at}", ripe_fruits=30, fruits_taken=2, seeds=40) for at in range(1, 61)),
        total_seeds=2400,
        plants_seen=600,
        plants_fruiting=400,
        first_ripe_on=COLLECTED - timedelta(days=8),
        already_shedding=True,
        visits_before=3,
        cut_test=CutTest(cut=10, filled=9),
        seeds_per_fruit=20.0,
        container=Container.PAPER_BAG,
        after_care=AfterCare.AIR_DRIED,
        drying_from=COLLECTED,
        drying_days=1.5,
        identified_by="the leader",
        voucher=Voucher("FLG 12", "with the bank"),
        **HERE,
    )
    return replace(whole, **changes)


def in_bulk(**changes: Any) -> Collection:
    """The same seed, all plants together."""
    return collection(handling=Handling.BULK, tallies=(), bulk=Bulk(plants=60, fruits_taken=120), **changes)


def begun(cast: Cast, scene: Scene, lead: str = "alice", key: str = "") -> UUID:
    """A draft under the scene's sheet."""
    with cast.work(lead) as work:
        return actions.begin(work, sheet_id=scene.sheet.id, sent_key=key or uuid4().hex).id


def handed_in(cast: Cast, scene: Scene, lead: str = "alice", **changes: Any) -> UUID:
    """A collection handed in by the lead of a group; it waits for the bank."""
    submission_id = begun(cast, scene, lead)
    with cast.work(lead) as work:
        actions.hand_in(work, submission_id=submission_id, data=collection(**changes))
    return submission_id


def sent_back(cast: Cast, scene: Scene, remarks: str = "Please count again.") -> UUID:
    """A collection that the curator has returned to its group."""
    submission_id = handed_in(cast, scene)
    with cast.work("cora") as work:
        actions.send_back(work, submission_id=submission_id, remarks=remarks)
    return submission_id


def stands(cast: Cast, submission_id: UUID) -> Submission:
    """The submission as the store has it now."""
    with cast.everywhere() as work:
        return work.db.scalars(select(Submission).where(Submission.id == submission_id)).one()
