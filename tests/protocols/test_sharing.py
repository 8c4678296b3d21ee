"""One population, one permit, several groups: each gets its part, and no order of events passes a limit."""

from __future__ import annotations

import threading
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from typing import Any, NamedTuple
from uuid import UUID, uuid4

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as some

from hub.adoptions.actions import hold_population
from hub.adoptions.queries import get
from hub.collecting.actions import take
from hub.collecting.queries import reserved_under
from hub.db import engine
from hub.protocols import casework, queries
from hub.protocols.actions import issue, withdraw
from hub.protocols.casework import facts_of
from hub.protocols.models import IssuedSheet
from hub.sites import queries as sites
from hub.sites.actions import record_permit, share_site
from hub.sites.models import Population, TakeAccount
from hub.taxa.models import Taxon
from hub.taxa.rules import CareClass
from tests.cast import Cast
from tests.protocols.scene import TODAY, Scene, count, set_scene, sheet_for, surveyed_population


class Held(NamedTuple):
    """An adoption at one of its populations."""

    adoption_id: UUID
    population_id: UUID


CAP = 5_000
ALLOWANCE = 24_000  # 400 plants in fruit × 30 fruits × 20 seeds, a tenth of it


@pytest.fixture
def scene(cast: Cast) -> Scene:
    return set_scene(cast)


def taxon_of(cast: Cast, scene: Scene) -> Taxon:
    with cast.everywhere() as work:
        return work.db.get_one(Taxon, scene.taxon_id)


def population_of(cast: Cast, scene: Scene) -> Population:
    with cast.everywhere() as work:
        return work.db.get_one(Population, scene.population_id)


def second_group(cast: Cast, scene: Scene) -> Scene:
    return sheet_for(cast, taxon_of(cast, scene), population_of(cast, scene), lead="charlie")


def left_on(sheet: IssuedSheet) -> Any:
    return queries.sheet_of(sheet).headline.left_seeds.value


def account_of(cast: Cast, population_id: UUID) -> TakeAccount:
    with cast.everywhere() as work:
        account = sites.take_account(work, population_id, 2031)
    assert account is not None
    return account


def again(cast: Cast, scene: Scene | Held, lead: str) -> IssuedSheet:
    with cast.work(lead) as work:
        return issue(work, adoption_id=scene.adoption_id, population_id=scene.population_id)


def test_the_first_group_keeps_what_the_bank_needs_and_the_next_one_as_much(cast: Cast, scene: Scene) -> None:
    second = second_group(cast, scene)
    assert (left_on(scene.sheet), left_on(second.sheet)) == (10_000, 10_000)
    assert account_of(cast, scene.population_id).reserved_seeds == 20_000
    assert left_on(again(cast, scene, "alice")) == 10_000


def test_where_there_is_less_than_the_bank_needs_each_gets_half(cast: Cast, scene: Scene) -> None:
    count(cast, scene.population_id, fruiting=100)
    first, second = again(cast, scene, "alice"), second_group(cast, scene)
    assert (left_on(first), left_on(second.sheet)) == (3_000, 3_000)


def test_a_group_that_has_taken_its_part_leaves_the_rest_to_others(cast: Cast, scene: Scene) -> None:
    with cast.work("alice") as work:
        take(work, sheet=scene.sheet, year=2031, seeds=10_000)
    assert queries.sheet_of(again(cast, scene, "alice")).status == "stop"
    assert left_on(second_group(cast, scene).sheet) == 10_000


def test_a_rare_population_is_one_groups_alone(cast: Cast) -> None:
    scene = set_scene(cast, care_class=CareClass.RARE)
    population = population_of(cast, scene)
    with cast.everywhere() as work:
        assert facts_of(work, get(work, scene.adoption_id), population).history.groups_here == 1


MOVES = some.lists(
    some.tuples(
        some.sampled_from(["alice", "charlie"]),
        some.sampled_from(["issue", "take a part", "take all", "withdraw"]),
    ),
    max_size=10,
)


@pytest.fixture
def adoptions(cast: Cast, scene: Scene) -> dict[str, UUID]:
    """Two groups that have adopted the same species, by lead."""
    return {"alice": scene.adoption_id, "charlie": second_group(cast, scene).adoption_id}


@settings(max_examples=12, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(moves=MOVES)
def test_no_order_of_events_passes_the_allowance(
    cast: Cast, adoptions: dict[str, UUID], scene: Scene, moves: list[tuple[str, str]]
) -> None:
    """Each group takes what its sheet keeps free, or a part of it, and asks again as often as it likes."""
    place = surveyed_population(cast, taxon_of(cast, scene), name=f"Scar {uuid4()}")
    groups = {lead: held_too(cast, adoption_id, place, lead) for lead, adoption_id in adoptions.items()}
    for lead, verb in moves:
        play(cast, groups[lead], lead, verb)
        account = account_of(cast, place.id)
        assert account.reserved_seeds + account.taken_seeds <= account.allowance_seeds == ALLOWANCE
    for lead, held in groups.items():
        sheet = queries.sheet_of(again(cast, held, lead))
        taken = sheet.case["history"]["own_seeds"]
        assert taken + sheet.headline.left_seeds.value == 10_000


def held_too(cast: Cast, adoption_id: UUID, place: Population, lead: str) -> Held:
    """The adoption holds one more population."""
    with cast.work("cora") as work:
        share_site(work, site_id=place.site_id, group_id=cast.seats[lead].group_id)
        hold_population(work, adoption_id=adoption_id, population_id=place.id)
    return Held(adoption_id, place.id)


def play(cast: Cast, held: Held, lead: str, verb: str) -> None:
    sheet = again(cast, held, lead)
    with cast.work("cora" if verb == "withdraw" else lead) as work:
        kept = reserved_under(work, sheet.id)
        if verb == "withdraw":
            withdraw(work, sheet_id=sheet.id, reason="A property test.")
        elif verb != "issue" and kept:
            take(work, sheet=sheet, year=2031, seeds=kept if verb == "take all" else max(1, kept // 3))


def with_cap(cast: Cast, scene: Scene) -> None:
    """A permit for the species, wherever it grows."""
    with cast.work("cora") as work:
        record_permit(
            work,
            authority="Vale Council",
            number="P 7",
            taxon_id=scene.taxon_id,
            starts_on=TODAY,
            ends_on=TODAY.replace(month=12),
            cap_seeds=CAP,
        )


def test_a_cap_binds_all_sites_together_and_reads_alike_for_all(cast: Cast, scene: Scene) -> None:
    """5,000 seeds are allowed, 4,500 of them are gone at another site that the group cannot see."""
    other = surveyed_population(cast, taxon_of(cast, scene), name="Far Scar")
    with_cap(cast, scene)
    with cast.everywhere() as work:
        work.db.add(
            TakeAccount(
                bank_id=other.bank_id,
                site_id=other.site_id,
                population_id=other.id,
                year=2031,
                allowance_seeds=4_500,
                taken_seeds=4_500,
            )
        )
    population = population_of(cast, scene)
    for by in ("alice", "cora"):
        with cast.work(by) as work:
            case = facts_of(work, get(work, scene.adoption_id), population)
        (permit,) = case.permits
        assert (permit.cap_seeds, permit.used_seeds) == (CAP, 4_500)
    fresh = again(cast, scene, "alice")
    assert left_on(fresh) == 500
    assert again(cast, scene, "alice").id == fresh.id


def test_two_sites_reckoned_at_once_never_pass_the_cap(
    cast: Cast, scene: Scene, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Even if writers took no turns, the permit's own row makes the second wait for the first.

    Each, once it has added up what is spoken for, waits a while for the other to have done so, too.
    """
    other = surveyed_population(cast, taxon_of(cast, scene), name="Far Scar")
    far = sheet_for(cast, taxon_of(cast, scene), other, lead="charlie")
    for each in (scene, far):
        with cast.work("cora") as work:
            withdraw(work, sheet_id=each.sheet.id, reason="Nothing is kept free yet.")
    with_cap(cast, scene)
    monkeypatch.setattr(engine, "WRITERS_TURN", "(random() * 1e15)::bigint")  # a turn of one’s own
    both, added_up = threading.Barrier(2), casework.spoken_for

    def slowly(*about: Any) -> int:
        seeds = added_up(*about)
        with suppress(threading.BrokenBarrierError):
            both.wait(timeout=1.5)
        return seeds

    monkeypatch.setattr(casework, "spoken_for", slowly)
    with ThreadPoolExecutor(2) as pool:
        sheets = list(pool.map(lambda one: again(cast, *one), [(scene, "alice"), (far, "charlie")]))
    assert sorted(left_on(sheet) for sheet in sheets) == [0, CAP]
    kept = [
        account_of(cast, population_id).reserved_seeds for population_id in (scene.population_id, other.id)
    ]
    assert sum(kept) == CAP
