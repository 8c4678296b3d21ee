"""Asking, deciding, giving back: what each does to the adoption, the list, the letters and the chain."""

from __future__ import annotations

from uuid import UUID, uuid4

import pytest
from sqlalchemy import select

from hub.accounts.models import Letter
from hub.adoptions import queries
from hub.adoptions.actions import (
    accept,
    accept_many,
    ask,
    decline,
    decline_many,
    fulfil,
    release,
    resume,
    suspend,
)
from hub.adoptions.rules import ADOPTION_MOVES, AdoptionState, Stage
from hub.groups.models import Group
from hub.groups.rules import AdoptionMode, GroupState
from hub.taxa.models import Taxon
from hub.taxa.rules import CareClass
from hub.words import NotFound, Refused
from tests.adoptions.scene import adopted, asked, put, set_bank, stands, wanted_species
from tests.cast import Cast


@pytest.fixture
def campion(cast: Cast) -> UUID:
    return wanted_species(cast)


def letters(cast: Cast) -> list[Letter]:
    with cast.everywhere() as work:
        return list(work.db.scalars(select(Letter)))


def test_a_wish_waits_for_the_curator(cast: Cast, campion: UUID) -> None:
    adoption = stands(cast, asked(cast, campion, wish="We live beside it."))
    assert (adoption.state, adoption.stage) == (AdoptionState.REQUESTED, Stage.ASKED)
    assert (adoption.group_id, adoption.wish) == (cast.fell_group.id, "We live beside it.")
    assert adoption.region_id == cast.region.id


def test_an_automatic_bank_says_yes_at_once(cast: Cast, campion: UUID) -> None:
    adoption = stands(cast, adopted(cast, campion))
    assert (adoption.state, adoption.stage) == (AdoptionState.ACTIVE, Stage.ADOPTED)


def test_even_an_automatic_bank_looks_at_critical_plants(cast: Cast) -> None:
    critical = wanted_species(cast, "Gentiana verna", care_class=CareClass.CRITICAL)
    assert stands(cast, adopted(cast, critical)).state is AdoptionState.REQUESTED


def test_asking_twice_is_refused_until_it_is_given_back(cast: Cast, campion: UUID) -> None:
    adoption = adopted(cast, campion)
    with pytest.raises(Refused, match="already"):
        asked(cast, campion, "alice")
    with cast.work("alice") as work:
        release(work, adoption_id=adoption.id)
    assert stands(cast, asked(cast, campion)).state is AdoptionState.ACTIVE


def test_the_bank_limits_the_groups_of_one_species(cast: Cast, campion: UUID) -> None:
    set_bank(cast, groups_per_species=1)
    asked(cast, campion, "alice")
    with pytest.raises(Refused, match="Only 1 group"):
        asked(cast, campion, "charlie")


def test_the_limit_of_one_bank_does_not_count_another_bank_s_season(cast: Cast, campion: UUID) -> None:
    set_bank(cast, groups_per_species=1)
    asked(cast, campion, "eve")
    assert asked(cast, campion, "alice").state is AdoptionState.REQUESTED


def test_the_bank_limits_the_species_of_one_group(cast: Cast, campion: UUID) -> None:
    set_bank(cast, adoptions_per_group=1)
    first = asked(cast, wanted_species(cast, "Digitalis purpurea"))
    with pytest.raises(Refused, match="1 species at a time"):
        asked(cast, campion)
    with cast.work("cora") as work:
        accept(work, adoption_id=first.id)
        fulfil(work, adoption_id=first.id)
    assert asked(cast, campion).state is AdoptionState.REQUESTED


def test_what_cannot_be_adopted_is_refused(cast: Cast, campion: UUID) -> None:
    with cast.everywhere() as work:
        unwanted = Taxon(**_traits(work.db.get_one(Taxon, campion), "Unwanted plant"))
        work.db.add(unwanted)
    with pytest.raises(Refused, match="wanted list"):
        asked(cast, unwanted.id)
    with pytest.raises(Refused, match="gone"):
        asked(cast, wanted_species(cast, "Gone plant", care_class=CareClass.GONE))
    with pytest.raises(Refused, match="not native"):
        asked(cast, wanted_species(cast, "Castanea sativa", native=False))


def _traits(taxon: Taxon, name: str) -> dict[str, object]:
    kept = {column.key: getattr(taxon, column.key) for column in Taxon.__table__.columns}
    del kept["id"], kept["version"]
    return kept | {"scientific_name": name, "canonical": name, "search_key": name.lower()}


def test_season_district_and_species_must_be_there_and_the_group_s_own(cast: Cast, campion: UUID) -> None:
    fine = {"season_id": cast.season.id, "taxon_id": campion, "district_id": cast.north.id}
    strange = {"season_id": cast.far_season.id, "taxon_id": uuid4()}
    for name, value in strange.items():
        with pytest.raises(NotFound), cast.work("alice") as work:
            ask(work, **(fine | {name: value}))
    with pytest.raises(Refused, match="districts") as refusal, cast.work("alice") as work:
        ask(work, **(fine | {"district_id": uuid4()}))
    assert refusal.value.field == "district_id"


def test_a_closed_group_is_not_taken_in_by_an_old_wish(cast: Cast, campion: UUID) -> None:
    adoption = asked(cast, campion)
    with cast.everywhere() as work:
        work.db.get_one(Group, cast.fell_group.id).state = GroupState.CLOSED
    with pytest.raises(Refused, match="not active"), cast.work("cora") as work:
        accept(work, adoption_id=adoption.id)


VERBS = {
    "accept": (accept, "cora", AdoptionState.ACTIVE),
    "decline": (decline, "cora", AdoptionState.DECLINED),
    "suspend": (suspend, "cora", AdoptionState.SUSPENDED),
    "resume": (resume, "cora", AdoptionState.ACTIVE),
    "fulfil": (fulfil, "cora", AdoptionState.FULFILLED),
    "release": (release, "alice", AdoptionState.RELEASED),
}
FROM = {"accept": AdoptionState.REQUESTED, "resume": AdoptionState.SUSPENDED}


def allowed(verb: str, state: AdoptionState) -> bool:
    """Two verbs lead to *active*, each from its own state; the table decides on the rest."""
    return FROM.get(verb, state) is state and VERBS[verb][2] in ADOPTION_MOVES[state]


@pytest.mark.parametrize("verb", VERBS)
def test_each_verb_moves_from_its_own_states_and_from_no_other(cast: Cast, campion: UUID, verb: str) -> None:
    adoption = asked(cast, campion)
    act, name, leads_to = VERBS[verb]
    for state in AdoptionState:
        put(cast, adoption, state)
        if allowed(verb, state):
            with cast.work(name) as work:
                act(work, adoption_id=adoption.id, reason="for a test")
                work.db.flush()
                assert queries.get(work, adoption.id).state is leads_to
                work.db.rollback()
        else:
            with pytest.raises(Refused, match="cannot be done"), cast.work(name) as work:
                act(work, adoption_id=adoption.id, reason="for a test")
        assert stands(cast, adoption).state is state


def test_several_are_decided_together_or_not_at_all(cast: Cast, campion: UUID) -> None:
    both = [asked(cast, campion, name).id for name in ("alice", "charlie")]
    with cast.work("cora") as work:
        decline_many(work, adoption_ids=both[:1], reason="Another year.")
    with pytest.raises(Refused), cast.work("cora") as work:
        accept_many(work, adoption_ids=reversed(both))
    with cast.everywhere() as work:
        states = [queries.get(work, each).state for each in both]
    assert states == [AdoptionState.DECLINED, AdoptionState.REQUESTED]


def test_a_group_is_told_what_was_decided_and_why(cast: Cast, campion: UUID) -> None:
    adoption = asked(cast, campion)
    for verb, says in (
        (accept, "has adopted Silene acaulis"),
        (suspend, "collect nothing"),
        (resume, "goes on"),
    ):
        with cast.work("cora") as work:
            verb(work, adoption_id=adoption.id, reason=f"Because of {says}.")
        letter = next(each for each in letters(cast) if says in each.body and "Because" in each.body)
        assert letter.to == "flg@cast.example"
        assert letter.body.startswith("Hello Leader, Fell Group,")


def test_a_decline_says_why(cast: Cast, campion: UUID) -> None:
    adoption = asked(cast, campion)
    with cast.work("cora") as work:
        decline(work, adoption_id=adoption.id, reason="Too steep for a school.")
    assert "Too steep for a school." in letters(cast)[0].body


def test_the_chain_tells_the_whole_story(cast: Cast, campion: UUID) -> None:
    adoption = asked(cast, campion)
    with cast.work("cora") as work:
        accept(work, adoption_id=adoption.id, reason="Good luck.")
    with cast.work("alice") as work:
        release(work, adoption_id=adoption.id, reason="Too far away.")
        told = [(entry.after["state"], entry.reason) for entry in queries.history(work, adoption.id)]
    assert told == [("requested", ""), ("active", "Good luck."), ("released", "Too far away.")]


def test_nobody_sees_a_neighbour_s_adoption(cast: Cast, campion: UUID) -> None:
    adoption = asked(cast, campion)
    for stranger in ("charlie", "eve", "dora"):
        with pytest.raises(NotFound), cast.work(stranger) as work:
            release(work, adoption_id=adoption.id)
    with cast.work("charlie") as work:
        assert queries.ours(work) == []
        assert queries.holders(work, cast.season.id, campion) == 1


def test_the_automatic_mode_is_the_bank_s_own(cast: Cast, campion: UUID) -> None:
    set_bank(cast, adoption_mode=AdoptionMode.AUTOMATIC)
    assert asked(cast, campion, "eve").state is AdoptionState.REQUESTED
