"""The running count of stages equals a recount, whatever was done, in any order, by any number at once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from typing import Any
from uuid import UUID

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import select

from hub.adoptions.actions import (
    accept,
    advance,
    decline,
    fulfil,
    lapse_due,
    release,
    resume,
    suspend,
)
from hub.adoptions.models import Adoption, StageCount
from hub.adoptions.rules import AdoptionState, Stage
from hub.db.work import Work
from hub.words import Refused
from tests.adoptions.scene import adopted, asked, set_bank, wanted_species
from tests.cast import Cast

# Seed is on its way, or has arrived: said here again, so that a slip in the rules shows.
COUNTED = ("requested", "active", "suspended", "fulfilled")
GROUPS = ("alice", "charlie", "eve")


def counted(cast: Cast) -> Counter[tuple[UUID, UUID, UUID, Stage]]:
    with cast.everywhere() as work:
        rows = work.db.scalars(select(StageCount)).all()
    return Counter({(row.season_id, row.taxon_id, row.district_id, row.stage): row.adoptions for row in rows})


def recounted(cast: Cast) -> Counter[tuple[UUID, UUID, UUID, Stage]]:
    with cast.everywhere() as work:
        rows = work.db.scalars(select(Adoption)).all()
    return Counter(
        (row.season_id, row.taxon_id, row.district_id, row.stage) for row in rows if row.state in COUNTED
    )


def same(cast: Cast) -> bool:
    """Counters compare without their noughts."""
    return counted(cast) == recounted(cast)


VERBS: dict[str, Callable[..., Any]] = {
    "accept": accept,
    "decline": decline,
    "release": release,
    "suspend": suspend,
    "resume": resume,
    "fulfil": fulfil,
}
STEPS = st.lists(
    st.tuples(st.sampled_from(GROUPS), st.integers(0, 1), st.sampled_from(["ask", "lapse", *VERBS, *Stage])),
    max_size=14,
)


def step(work: Work, adoption_id: UUID | None, verb: str) -> None:
    if verb == "lapse":
        lapse_due(work)
    elif adoption_id is None:
        return
    elif verb in VERBS:
        VERBS[verb](work, adoption_id=adoption_id, reason="a property test")
    else:
        advance(work, adoption_id=adoption_id, stage=Stage(verb))


def newest(cast: Cast, name: str, taxon_id: UUID) -> UUID | None:
    with cast.everywhere() as work:
        found = select(Adoption.id).where(
            Adoption.group_id == cast.seats[name].group_id, Adoption.taxon_id == taxon_id
        )
        return work.db.scalars(found.order_by(Adoption.holding_key.is_(None), Adoption.id)).first()


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(steps=STEPS)
def test_after_any_sequence_of_moves_the_count_is_a_recount(
    cast: Cast, steps: list[tuple[str, int, str]]
) -> None:
    taxa = getattr(cast, "taxa", None) or [wanted_species(cast), wanted_species(cast, "Digitalis purpurea")]
    cast.taxa = taxa  # type: ignore[attr-defined]  one stage for all the examples of one database
    for name, which, verb in steps:
        try:
            if verb == "ask":
                asked(cast, taxa[which], name)
            else:
                with cast.everywhere(now=cast.now.replace(month=10)) as work:
                    step(work, newest(cast, name, taxa[which]), verb)
        except Refused:
            continue
    assert same(cast)


def test_what_is_over_leaves_the_count(cast: Cast) -> None:
    taxon = wanted_species(cast)
    for verb in (decline, release):
        adoption = adopted(cast, taxon) if verb is release else asked(cast, taxon)
        assert counted(cast).total() == 1
        with cast.everywhere() as work:
            verb(work, adoption_id=adoption.id, reason="")
        assert counted(cast).total() == 0


def test_moving_on_moves_the_count(cast: Cast) -> None:
    adoption = adopted(cast, wanted_species(cast))
    place = (cast.season.id, adoption.taxon_id, cast.north.id)
    for stage in (Stage.READY, Stage.PERMITTED):
        with cast.work("alice") as work:
            advance(work, adoption_id=adoption.id, stage=stage)
        assert +counted(cast) == Counter({(*place, Stage.READY): 1})


def test_no_change_is_lost_and_nobody_waits_for_ever(cast: Cast) -> None:
    """Two groups and a curator carry six adoptions on in opposite orders, in one transaction each."""
    set_bank(cast, adoptions_per_group=9)
    plants = [wanted_species(cast, f"Species number{n}") for n in ("one", "two", "three")]
    claims = [adopted(cast, taxon, name).id for taxon in plants for name in ("alice", "charlie")]
    own = {"alice": claims[0::2], "charlie": claims[1::2], "cora": claims[::-1]}

    def carry_on(job: tuple[str, Stage, bool]) -> None:
        name, stage, backwards = job
        with cast.work(name) as work:
            for adoption_id in reversed(own[name]) if backwards else own[name]:
                advance(work, adoption_id=adoption_id, stage=stage)

    jobs = [(name, stage, turned) for stage in Stage for name in own for turned in (False, True)]
    with ThreadPoolExecutor(8) as pool:
        list(pool.map(carry_on, jobs))
    assert same(cast)
    assert +counted(cast) == Counter(
        {(cast.season.id, taxon, cast.north.id, Stage.BANKED): 2 for taxon in plants}
    )


def test_no_number_of_groups_at_once_passes_the_limit(cast: Cast) -> None:
    """Two groups ask ten times at once for a species that the bank gives to one."""
    set_bank(cast, groups_per_species=1)
    adopted(cast, wanted_species(cast, "Digitalis purpurea"), "charlie")
    taxon = wanted_species(cast)

    def attempt(number: int) -> int:
        try:
            asked(cast, taxon, ("alice", "charlie")[number % 2])
        except Refused:
            return 0
        return 1

    with ThreadPoolExecutor(8) as pool:
        assert sum(pool.map(attempt, range(10))) == 1
    with cast.everywhere() as work:
        states = work.db.scalars(select(Adoption.state).where(Adoption.taxon_id == taxon)).all()
    assert states == [AdoptionState.ACTIVE]
    assert same(cast)
