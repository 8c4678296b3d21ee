"""Which populations an adoption collects from: shared when common, one group's alone when rare."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from uuid import UUID

import pytest
from sqlalchemy import select

from hub.adoptions import queries
from hub.adoptions.actions import hold_population, let_go_population, release, suspend
from hub.adoptions.models import AdoptedPopulation, Adoption
from hub.adoptions.rules import AdoptionState, Stage
from hub.sites.queries import get_population
from hub.taxa.actions import set_standings
from hub.taxa.models import StandingKind
from hub.taxa.rules import CareClass
from hub.taxa.standings import StandingGiven
from hub.words import NotFound, Refused
from tests.adoptions.scene import adopted, let_in, patch, put, stands, wanted_species
from tests.cast import Cast


def hold(cast: Cast, name: str, adoption: Adoption, population_id: UUID) -> None:
    with cast.work(name) as work:
        hold_population(work, adoption_id=adoption.id, population_id=population_id)


def rank(cast: Cast, taxon_id: UUID, text: str) -> None:
    """The species is given this rank, as a curator notes it."""
    given = StandingGiven(kind=StandingKind.RANK, text=text, place="Test Vale", authority="The cast")
    with cast.work("cora") as work:
        set_standings(work, taxon_id=taxon_id, standings=[given])


def held_by(cast: Cast, adoption: Adoption) -> list[str]:
    with cast.everywhere() as work:
        return [population.code for population in queries.populations_held(work, adoption.id)]


def test_a_curator_leads_a_group_to_a_population_and_its_site(cast: Cast) -> None:
    taxon = wanted_species(cast)
    adoption, population_id = adopted(cast, taxon), patch(cast, taxon)
    with pytest.raises(NotFound), cast.work("alice") as work:
        get_population(work, population_id)
    hold(cast, "cora", adoption, population_id)
    with cast.work("alice") as work:
        assert get_population(work, population_id).code == "SIL-ACA 01"
    assert held_by(cast, adoption) == ["SIL-ACA 01"]


def test_a_group_holds_what_it_can_see_and_nothing_else(cast: Cast) -> None:
    taxon = wanted_species(cast)
    adoption, population_id = adopted(cast, taxon), patch(cast, taxon)
    with pytest.raises(NotFound):
        hold(cast, "alice", adoption, population_id)
    let_in(cast, population_id, "alice")
    hold(cast, "alice", adoption, population_id)
    hold(cast, "alice", adoption, population_id)
    assert held_by(cast, adoption) == ["SIL-ACA 01"]


def test_common_plants_may_be_shared(cast: Cast) -> None:
    taxon = wanted_species(cast, care_class=CareClass.WATCH)
    population_id = patch(cast, taxon)
    for name in ("alice", "charlie"):
        adoption = adopted(cast, taxon, name)
        hold(cast, "cora", adoption, population_id)
        assert held_by(cast, adoption) == ["SIL-ACA 01"]


@pytest.mark.parametrize("care", [CareClass.RARE, CareClass.UNKNOWN])
def test_rare_plants_are_left_to_one_group_until_it_lets_go(cast: Cast, care: CareClass) -> None:
    taxon = wanted_species(cast, care_class=care)
    population_id = patch(cast, taxon)
    ours, theirs = adopted(cast, taxon, "alice"), adopted(cast, taxon, "charlie")
    for name in ("alice", "charlie"):
        let_in(cast, population_id, name)
    hold(cast, "alice", ours, population_id)
    with pytest.raises(Refused, match="Somebody else looks after") as refusal:
        hold(cast, "charlie", theirs, population_id)
    assert "Fell Group" not in str(refusal.value)
    assert held_by(cast, theirs) == []
    with cast.work("alice") as work:
        let_go_population(work, adoption_id=ours.id, population_id=population_id)
    hold(cast, "charlie", theirs, population_id)


def test_giving_a_species_back_frees_its_populations(cast: Cast) -> None:
    taxon = wanted_species(cast, care_class=CareClass.RARE)
    population_id = patch(cast, taxon)
    ours, theirs = adopted(cast, taxon, "alice"), adopted(cast, taxon, "charlie")
    hold(cast, "cora", ours, population_id)
    with cast.work("alice") as work:
        release(work, adoption_id=ours.id)
    hold(cast, "cora", theirs, population_id)
    assert held_by(cast, ours) == ["SIL-ACA 01"]  # on record, without the claim


def test_a_species_that_becomes_rare_takes_nobody_more(cast: Cast) -> None:
    taxon = wanted_species(cast)
    population_id = patch(cast, taxon)
    hold(cast, "cora", adopted(cast, taxon, "alice"), population_id)
    theirs = adopted(cast, taxon, "charlie")
    rank(cast, taxon, "G2")
    with pytest.raises(Refused, match="Somebody else looks after"):
        hold(cast, "cora", theirs, population_id)
    rank(cast, taxon, "G5")
    hold(cast, "cora", theirs, population_id)
    rank(cast, taxon, "G2")
    with cast.everywhere() as work:
        keys = work.db.scalars(select(AdoptedPopulation.sole_key).order_by(AdoptedPopulation.since)).all()
    assert sorted(key is None for key in keys) == [False, True]


def test_a_pause_keeps_the_claim(cast: Cast) -> None:
    taxon = wanted_species(cast, care_class=CareClass.RARE)
    population_id = patch(cast, taxon)
    ours, theirs = adopted(cast, taxon, "alice"), adopted(cast, taxon, "charlie")
    hold(cast, "cora", ours, population_id)
    with cast.work("cora") as work:
        suspend(work, adoption_id=ours.id, reason="A dry year.")
    with pytest.raises(Refused):
        hold(cast, "cora", theirs, population_id)


def test_only_an_active_adoption_takes_on_populations_of_its_own_species(cast: Cast) -> None:
    taxon = wanted_species(cast)
    adoption = adopted(cast, taxon)
    other = patch(cast, wanted_species(cast, "Digitalis purpurea"), "DIG-PUR 01")
    with pytest.raises(Refused, match="another species"):
        hold(cast, "cora", adoption, other)
    put(cast, adoption, AdoptionState.FULFILLED)
    with pytest.raises(Refused, match="cannot be done"):
        hold(cast, "cora", adoption, patch(cast, taxon))


def test_a_site_with_permission_carries_the_adoption_on(cast: Cast) -> None:
    taxon = wanted_species(cast)
    adoption = adopted(cast, taxon)
    hold(cast, "cora", adoption, patch(cast, taxon, granted=True))
    assert stands(cast, adoption).stage is Stage.PERMITTED


def test_what_is_banked_is_not_let_go(cast: Cast) -> None:
    taxon = wanted_species(cast)
    adoption, population_id = adopted(cast, taxon), patch(cast, taxon)
    hold(cast, "cora", adoption, population_id)
    with cast.everywhere() as work:
        work.db.scalars(select(AdoptedPopulation)).one().accessioned_at = cast.now
    with pytest.raises(Refused, match="in the bank"), cast.work("alice") as work:
        let_go_population(work, adoption_id=adoption.id, population_id=population_id)


def test_of_many_groups_at_once_one_alone_gets_a_rare_population(cast: Cast) -> None:
    """Both groups try five times each, on five populations, at the same time."""
    taxon = wanted_species(cast, care_class=CareClass.RARE)
    claims = {name: adopted(cast, taxon, name) for name in ("alice", "charlie")}
    patches = [patch(cast, taxon, f"SIL-ACA 0{n}") for n in range(5)]
    for name in claims:
        for population_id in patches:
            let_in(cast, population_id, name)

    def attempt(number: int) -> int:
        name = ("alice", "charlie")[number % 2]
        try:
            hold(cast, name, claims[name], patches[number // 2])
        except Refused:
            return 0
        return 1

    with ThreadPoolExecutor(8) as pool:
        assert sum(pool.map(attempt, range(10))) == 5
    with cast.everywhere() as work:
        keys = work.db.scalars(select(AdoptedPopulation.sole_key)).all()
    assert len(set(keys)) == len(keys) == 5
