"""An adoption gets further by what happens elsewhere, never back, and lapses when nothing happens at all."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from types import SimpleNamespace
from uuid import UUID

import pytest
from sqlalchemy import select

from hub.accounts.models import Letter
from hub.adoptions import listeners
from hub.adoptions.actions import advance, hold_population, lapse_due, suspend
from hub.adoptions.models import AdoptedPopulation, Adoption, StageCount
from hub.adoptions.rules import STAGES, AdoptionState, Stage
from hub.sites.actions import ask_permission, grant_permission, record_census
from hub.sites.models import Population
from hub.sites.rules import CensusMethod
from tests.adoptions.scene import adopted, asked, let_in, patch, put, stands, wanted_species
from tests.cast import Cast

COLLECTED = date(2031, 7, 10)


@dataclass
class Claim:
    """An adoption that holds one population."""

    adoption: Adoption
    population_id: UUID
    taxon_id: UUID


@pytest.fixture
def claim(cast: Cast) -> Claim:
    taxon = wanted_species(cast)
    adoption, population_id = adopted(cast, taxon), patch(cast, taxon)
    with cast.work("cora") as work:
        hold_population(work, adoption_id=adoption.id, population_id=population_id)
    return Claim(adoption, population_id, taxon)


def site_of(cast: Cast, claim: Claim) -> UUID:
    with cast.everywhere() as work:
        return work.db.get_one(Population, claim.population_id).site_id


def accession(
    claim: Claim, population_id: UUID | None = None, on: date = COLLECTED, state: str = "stored"
) -> SimpleNamespace:
    """What the listener reads of an accession."""
    return SimpleNamespace(
        group_id=claim.adoption.group_id,
        population_id=population_id or claim.population_id,
        collected_on=on,
        state=state,
    )


@pytest.mark.parametrize("stage", Stage)
def test_a_stage_is_reached_and_never_lost(cast: Cast, claim: Claim, stage: Stage) -> None:
    for each in (stage, *Stage):
        with cast.work("alice") as work:
            advance(work, adoption_id=claim.adoption.id, stage=each)
        assert STAGES.index(stands(cast, claim.adoption).stage) >= STAGES.index(stage)
    assert stands(cast, claim.adoption).stage is Stage.BANKED


@pytest.mark.parametrize("state", AdoptionState)
def test_only_work_under_way_gets_further(cast: Cast, claim: Claim, state: AdoptionState) -> None:
    put(cast, claim.adoption, state)
    with cast.work("alice") as work:
        advance(work, adoption_id=claim.adoption.id, stage=Stage.READY)
    moved = stands(cast, claim.adoption).stage is Stage.READY
    assert moved == (state in ("active", "suspended"))


def test_the_owner_s_yes_carries_every_adoption_at_the_site_on(cast: Cast, claim: Claim) -> None:
    beside = adopted(cast, claim.taxon_id, "charlie")
    elsewhere = adopted(cast, wanted_species(cast, "Digitalis purpurea"))
    site_id = site_of(cast, claim)
    with cast.work("cora") as work:
        hold_population(work, adoption_id=beside.id, population_id=claim.population_id)
        permission = ask_permission(work, site_id=site_id, on=date(2031, 7, 1))
    assert stands(cast, claim.adoption).stage is Stage.ADOPTED
    with cast.work("cora") as work:
        grant_permission(
            work,
            permission_id=permission.id,
            answered_on=date(2031, 7, 5),
            starts_on=date(2031, 7, 5),
            ends_on=date(2031, 9, 30),
        )
    for adoption, stage in (
        (claim.adoption, Stage.PERMITTED),
        (beside, Stage.PERMITTED),
        (elsewhere, Stage.ADOPTED),
    ):
        assert stands(cast, adoption).stage is stage


def test_sheets_and_hand_ins_carry_it_on(cast: Cast, claim: Claim) -> None:
    told = [
        (listeners.ready, {"status": "not_yet"}, Stage.ADOPTED),
        (listeners.ready, {"status": "ready"}, Stage.READY),
        (listeners.handed_in, {"state": "draft"}, Stage.READY),
        (listeners.handed_in, {"state": "handed in"}, Stage.HANDED_IN),
        (listeners.ready, {"status": "ready"}, Stage.HANDED_IN),
    ]
    for tell, facts, stage in told:
        with cast.work("alice") as work:
            tell(work, SimpleNamespace(adoption_id=claim.adoption.id, **facts))
        assert stands(cast, claim.adoption).stage is stage


def test_the_last_population_accessioned_fulfils_it(cast: Cast, claim: Claim) -> None:
    second = patch(cast, claim.taxon_id, "SIL-ACA 02")
    with cast.work("cora") as work:
        hold_population(work, adoption_id=claim.adoption.id, population_id=second)
        listeners.accessioned(work, accession(claim))
    half = stands(cast, claim.adoption)
    assert (half.state, half.stage) == (AdoptionState.ACTIVE, Stage.ACCESSIONED)
    with cast.work("cora") as work:
        listeners.accessioned(work, accession(claim, second))
        listeners.accessioned(work, accession(claim, second))
    assert stands(cast, claim.adoption).state is AdoptionState.FULFILLED
    with cast.everywhere() as work:
        assert all(work.db.scalars(select(AdoptedPopulation.accessioned_at)))


def test_seed_of_another_season_or_place_changes_nothing(cast: Cast, claim: Claim) -> None:
    other = patch(cast, claim.taxon_id, "SIL-ACA 02")
    with cast.work("cora") as work:
        listeners.accessioned(work, accession(claim, other))
        listeners.banked(work, accession(claim, other))
        listeners.accessioned(work, accession(claim, on=cast.season.opens_on - timedelta(days=1)))
    assert stands(cast, claim.adoption).stage is Stage.ADOPTED


def test_an_adoption_is_banked_as_long_as_one_accession_is_kept(cast: Cast, claim: Claim) -> None:
    """What waits to be cleaned and tested is not safe yet, and what was used up is not safe any more."""
    told = [
        (listeners.accessioned, "processing", Stage.ACCESSIONED),
        (listeners.banked, "stored", Stage.BANKED),
        (listeners.banked, "living", Stage.BANKED),
        (listeners.banked, "exhausted", Stage.BANKED),
        (listeners.banked, "deaccessioned", Stage.ACCESSIONED),
    ]
    for tell, state, stage in told:
        with cast.work("cora") as work:
            tell(work, accession(claim, state=state))
        assert stands(cast, claim.adoption).stage is stage
        assert counted(cast) == {stage: 1}


def counted(cast: Cast) -> dict[Stage, int]:
    with cast.everywhere() as work:
        rows = work.db.scalars(select(StageCount).where(StageCount.adoptions > 0))
        return {each.stage: each.adoptions for each in rows}


def test_accessioned_seed_of_a_paused_adoption_waits_for_the_curator(cast: Cast, claim: Claim) -> None:
    with cast.work("cora") as work:
        suspend(work, adoption_id=claim.adoption.id, reason="A dry year.")
        listeners.accessioned(work, accession(claim))
    paused = stands(cast, claim.adoption)
    assert (paused.state, paused.stage) == (AdoptionState.SUSPENDED, Stage.ACCESSIONED)


def lapsed(cast: Cast, day: date) -> int:
    with cast.everywhere(now=cast.now.replace(month=day.month, day=day.day)) as work:
        return lapse_due(work)


def test_what_nobody_worked_on_lapses_on_the_day_and_the_group_is_told(cast: Cast, claim: Claim) -> None:
    assert lapsed(cast, cast.season.lapses_on - timedelta(days=1)) == 0
    assert lapsed(cast, cast.season.lapses_on) == 1
    assert lapsed(cast, cast.season.lapses_on) == 0
    gone = stands(cast, claim.adoption)
    assert (gone.state, gone.holding_key) == (AdoptionState.LAPSED, None)
    with cast.everywhere() as work:
        letter = work.db.scalars(select(Letter)).one()
    assert "back on the list" in letter.subject
    assert letter.to == "flg@cast.example"


def test_a_wish_that_nobody_answered_does_not_lapse(cast: Cast) -> None:
    asked(cast, wanted_species(cast))
    assert lapsed(cast, cast.season.lapses_on) == 0


def test_having_asked_the_owner_is_activity(cast: Cast, claim: Claim) -> None:
    beside = adopted(cast, claim.taxon_id, "charlie")
    let_in(cast, claim.population_id, "charlie")
    with cast.work("alice") as work:
        ask_permission(work, site_id=site_of(cast, claim), on=date(2031, 7, 14))
    assert lapsed(cast, cast.season.lapses_on) == 1
    assert stands(cast, beside).state is AdoptionState.LAPSED
    assert stands(cast, claim.adoption).state is AdoptionState.ACTIVE


def test_having_counted_the_plants_is_activity(cast: Cast, claim: Claim) -> None:
    with cast.work("alice") as work:
        record_census(
            work,
            population_id=claim.population_id,
            counted_on=date(2031, 7, 14),
            method=CensusMethod.COUNTED,
            plants=240,
        )
    assert lapsed(cast, cast.season.lapses_on) == 0


def test_a_group_that_has_its_permission_may_wait_for_ripe_fruit(cast: Cast, claim: Claim) -> None:
    with cast.work("alice") as work:
        advance(work, adoption_id=claim.adoption.id, stage=Stage.PERMITTED)
    assert lapsed(cast, cast.season.lapses_on) == 0
