"""One adoption's page: its story, its populations, and the moves that it asks about first."""

from __future__ import annotations

from collections.abc import Callable
from uuid import UUID, uuid4

import pytest

from hub.adoptions import queries
from hub.adoptions.actions import hold_population
from hub.adoptions.models import Adoption
from hub.adoptions.rules import AdoptionState
from hub.taxa.rules import CareClass
from tests.adoptions.scene import adopted, let_in, patch, put, stands, wanted_species
from tests.cast import Cast
from tests.support.browser import Browser

Browse = Callable[..., Browser]


@pytest.fixture
def campion(cast: Cast) -> UUID:
    return wanted_species(cast)


@pytest.fixture
def adoption(cast: Cast, campion: UUID) -> Adoption:
    return adopted(cast, campion)


def codes(cast: Cast, adoption: Adoption) -> list[str]:
    with cast.everywhere() as work:
        return [each.code for each in queries.populations_held(work, adoption.id)]


def test_it_tells_the_story(cast: Cast, browse: Browse, campion: UUID, adoption: Adoption) -> None:
    with cast.work("cora") as work:
        hold_population(work, adoption_id=adoption.id, population_id=patch(cast, campion, granted=True))
    text = browse("alice").get(f"/adoptions/{adoption.id}").main
    for words in (
        "Asked for", "Adopted", "Collects from SIL-ACA 01", "Reached: permission granted", "group lead",
        "curator", "Northern Part", "by the wall", "14 July 2031",
    ):  # fmt: skip
        assert words in text


def test_the_group_and_its_curator_see_it_and_nobody_else(
    cast: Cast, browse: Browse, adoption: Adoption
) -> None:
    path = f"/adoptions/{adoption.id}"
    for name in ("alice", "bob", "cora"):
        assert browse(name).get(path).heading == "Silene acaulis, Fell Group"
    for name in ("charlie", "eve", "dora"):
        browse(name).get(path, status=404)
    for name in ("tess", "olga", "stan"):
        browse(name).get(path, status=403)
    assert browse().get(path, status=302).location.startswith("/sign-in")
    browse("alice").get(f"/adoptions/{uuid4()}", status=404)
    browse("alice").post(path, status=405)


def test_it_costs_the_same_however_many_populations(
    cast: Cast, browse: Browse, campion: UUID, adoption: Adoption
) -> None:
    cora = browse("cora")
    counts = []
    for n in range(3):
        with cast.work("cora") as work:
            hold_population(
                work, adoption_id=adoption.id, population_id=patch(cast, campion, f"SIL-ACA 0{n}")
            )
        cora.get(f"/adoptions/{adoption.id}")
        counts.append(len(cora.queries))
    assert counts == [10, 10, 10]


def test_a_curator_pauses_and_resumes(cast: Cast, browse: Browse, adoption: Adoption) -> None:
    cora, path = browse("cora"), f"/adoptions/{adoption.id}"
    page = cora.fill(f"{path}/suspend", status=422)
    assert "Please fill this in." in page.beside("reason")
    assert "Paused" in cora.follow(cora.fill(f"{path}/suspend", reason="A dry year.")).main
    assert stands(cast, adoption).state is AdoptionState.SUSPENDED
    assert "Goes on" in cora.follow(cora.fill(f"{path}/resume")).main
    assert stands(cast, adoption).state is AdoptionState.ACTIVE


def test_a_curator_says_that_it_is_fulfilled(cast: Cast, browse: Browse, adoption: Adoption) -> None:
    browse("cora").fill(f"/adoptions/{adoption.id}/fulfil")
    assert stands(cast, adoption).state is AdoptionState.FULFILLED


def test_a_lead_gives_it_back_after_being_asked(cast: Cast, browse: Browse, adoption: Adoption) -> None:
    alice, path = browse("alice"), f"/adoptions/{adoption.id}/release"
    assert "goes back on the wanted list" in alice.get(path).main
    page = alice.follow(alice.fill(path, reason="Too far away."))
    assert "Given back to the list" in page.main
    assert stands(cast, adoption).state is AdoptionState.RELEASED
    assert "released now" in alice.post(path, status=422).problems[0]


def test_moves_are_their_own_seat_s_alone(cast: Cast, browse: Browse, adoption: Adoption) -> None:
    for verb, may_not in (("suspend", "alice"), ("resume", "alice"), ("fulfil", "bob"), ("release", "bob")):
        browse(may_not).get(f"/adoptions/{adoption.id}/{verb}", status=403)
        browse(may_not).post(f"/adoptions/{adoption.id}/{verb}", {"reason": "no"}, status=403)
    browse("cora").post(f"/adoptions/{adoption.id}/release", status=403)
    browse("charlie").post(f"/adoptions/{adoption.id}/release", status=404)
    browse("dora").post(f"/adoptions/{adoption.id}/suspend", {"reason": "no"}, status=404)
    browse("dora").get(f"/adoptions/{adoption.id}/nonsense", status=404)
    assert stands(cast, adoption).state is AdoptionState.ACTIVE


@pytest.mark.parametrize("state", AdoptionState)
def test_only_moves_that_there_are_stand_on_the_page(
    cast: Cast, browse: Browse, adoption: Adoption, state: AdoptionState
) -> None:
    put(cast, adoption, state)
    path = f"/adoptions/{adoption.id}"
    offered = {
        link.removeprefix(f"{path}/") for link in browse("cora").get(path).links if link.startswith(path)
    }
    expected = {AdoptionState.ACTIVE: {"suspend", "fulfil"}, AdoptionState.SUSPENDED: {"resume"}}
    assert offered - {path} == expected.get(state, set())
    assert (f"{path}/release" in browse("alice").get(path).links) == (state is AdoptionState.ACTIVE)


def test_a_lead_takes_a_population_on_and_lets_it_go(
    cast: Cast, browse: Browse, campion: UUID, adoption: Adoption
) -> None:
    population_id = patch(cast, campion)
    let_in(cast, population_id, "alice")
    alice, path = browse("alice"), f"/adoptions/{adoption.id}"
    answer = alice.fill(path, action=f"{path}/populations", population_id=str(population_id))
    assert "SIL-ACA 01 is in" in alice.follow(answer).text
    assert codes(cast, adoption) == ["SIL-ACA 01"]
    let_go = f"{path}/populations/{population_id}/let-go"
    assert let_go in alice.get(path).links
    alice.fill(let_go)
    assert codes(cast, adoption) == []
    alice.get(let_go, status=404)
    alice.post(let_go, status=404)


def test_a_population_that_cannot_be_taken_on_is_refused_in_words(
    cast: Cast, browse: Browse, campion: UUID, adoption: Adoption
) -> None:
    alice, path = browse("alice"), f"/adoptions/{adoption.id}/populations"
    assert "Take on a population: Please fill this in." in alice.post(path, status=422).problems
    alice.post(path, {"population_id": str(patch(cast, campion))}, status=404)
    other = patch(cast, wanted_species(cast, "Ulmus glabra"), "ULM-GLA 01")
    page = browse("cora").post(path, {"population_id": str(other)}, status=422)
    assert "another species" in page.problems[0]
    browse("bob").post(path, {"population_id": str(other)}, status=403)
    browse("charlie").post(path, {"population_id": str(other)}, status=404)


def test_a_claimed_rare_population_gives_no_name_away(cast: Cast, browse: Browse) -> None:
    taxon = wanted_species(cast, "Gentiana verna", care_class=CareClass.RARE)
    ours, theirs, population_id = (
        adopted(cast, taxon),
        adopted(cast, taxon, "charlie"),
        patch(cast, taxon, "GEN 1"),
    )
    let_in(cast, population_id, "charlie")
    with cast.work("cora") as work:
        hold_population(work, adoption_id=ours.id, population_id=population_id)
    charlie, path = browse("charlie"), f"/adoptions/{theirs.id}/populations"
    page = charlie.post(path, {"population_id": str(population_id)}, status=422)
    assert "Somebody else looks after this population" in page.problems[0]
    assert "Fell Group" not in page.html
