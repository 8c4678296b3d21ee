"""Sending twice, at the same moment too, makes one thing; the ledger holds however hand-ins interleave."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from threading import Barrier
from typing import TypeVar

import pytest
from sqlalchemy import func, select

from hub.collecting.queries import balance
from hub.sites.queries import get_population
from hub.taxa.queries import get
from hub.vetting import actions, queries
from hub.vetting.models import Revision, Submission
from hub.words import Refused
from tests.vetting.scene import begun, collection, set_scene, sheet_for, stands

AT_ONCE = 4
Answer = TypeVar("Answer")


@pytest.fixture
def scene(cast):
    return set_scene(cast)


def all_at_once(*acts: Callable[[], Answer]) -> list[Answer]:
    """Let threads begin at the same moment, and collect what each one answers."""
    gate = Barrier(len(acts))

    def run(act: Callable[[], Answer]) -> Answer:
        gate.wait()
        return act()

    with ThreadPoolExecutor(len(acts)) as threads:
        return list(threads.map(run, acts))


def test_one_sending_that_arrives_many_times_begins_one_submission(cast, scene):
    ids = all_at_once(*[lambda: begun(cast, scene, key="the key of one page")] * AT_ONCE)
    assert len(set(ids)) == 1
    with cast.everywhere() as work:
        assert work.db.scalar(select(func.count()).select_from(Submission)) == 1


def test_different_sendings_get_numbers_of_their_own_without_a_gap(cast, scene):
    ids = all_at_once(*[lambda: begun(cast, scene)] * AT_ONCE)
    serials = sorted(stands(cast, each).number.split("-")[2] for each in ids)
    assert serials == ["0001", "0002", "0003", "0004"]


def test_a_hand_in_pressed_many_times_is_one_revision_and_one_taking(cast, scene):
    submission_id = begun(cast, scene)

    def press() -> None:
        with cast.work("alice") as work:
            actions.hand_in(work, submission_id=submission_id, data=collection())

    all_at_once(*[press] * AT_ONCE)
    with cast.everywhere() as work:
        assert work.db.scalar(select(func.count()).select_from(Revision)) == 1
        assert balance(work, population_id=scene.population_id, year=2031).taken == 2410


def test_of_two_different_hand_ins_of_one_draft_the_second_is_refused(cast, scene):
    submission_id = begun(cast, scene)

    def press(people: int) -> str:
        try:
            with cast.work("alice") as work:
                actions.hand_in(work, submission_id=submission_id, data=collection(people=people))
        except Refused:
            return "refused"
        return "handed in"

    assert sorted(all_at_once(lambda: press(2), lambda: press(3))) == ["handed in", "refused"]


def test_groups_that_hand_in_from_one_population_at_once_are_all_counted(cast, scene):
    with cast.everywhere() as work:
        taxon, population = plants(work, scene)
    other = sheet_for(cast, taxon, population, "charlie")
    drafts = {name: begun(cast, each, name) for name, each in (("alice", scene), ("charlie", other))}

    def hand_in(name: str) -> None:
        with cast.work(name) as work:
            actions.hand_in(work, submission_id=drafts[name], data=collection())

    all_at_once(lambda: hand_in("alice"), lambda: hand_in("charlie"))
    with cast.everywhere() as work:
        assert balance(work, population_id=scene.population_id, year=2031).taken == 4820
        assert {queries.get(work, each).revision for each in drafts.values()} == {1}


def plants(work, scene):

    return get(work, scene.taxon_id), get_population(work, scene.population_id)
