"""Seed that came in: noted once, with moment and condition, taken back, and what the queue makes of it."""

from __future__ import annotations

from datetime import date, time, timedelta
from itertools import product
from uuid import UUID

import pytest
from sqlalchemy import select

from hub.audit.models import AuditEntry
from hub.audit.rules import Event
from hub.vetting import actions, queries
from hub.vetting.rules import Urgency, rank_in_queue
from hub.words import NotFound, Refused
from tests.cast import Cast
from tests.vetting.scene import COLLECTED, TODAY, Scene, begun, handed_in, sent_back, set_scene, stands


@pytest.fixture
def scene(cast: Cast) -> Scene:
    return set_scene(cast)


def came(
    cast: Cast, submission_id: UUID, day: date = TODAY, at: time = time(8), note: str = "", name: str = "tess"
) -> None:
    with cast.work(name) as work:
        actions.seed_arrived(work, submission_id=submission_id, day=day, at=at, note=note)


def taken_back(cast: Cast, submission_id: UUID) -> None:
    with cast.work("cora") as work:
        actions.undo_arrival(work, submission_id=submission_id)


def told(cast: Cast) -> list[tuple[bool, bool, str]]:
    """Whether an arrival stood before and after each note, and what was said of the condition."""
    with cast.everywhere() as work:
        found = select(AuditEntry).where(AuditEntry.event == Event.ARRIVAL_NOTED)
        entries = work.db.scalars(found.order_by(AuditEntry.serial))
        return [(bool(e.before["arrived_at"]), bool(e.after["arrived_at"]), e.reason) for e in entries]


def test_an_arrival_is_noted_once_with_its_moment_and_taken_back(cast: Cast, scene: Scene) -> None:
    one = handed_in(cast, scene)
    for _ in range(2):
        came(cast, one, note="dry, no mould ")
    found = stands(cast, one)
    assert found.arrived_at == cast.now.replace(hour=8, minute=0, second=0, microsecond=0)
    assert (found.arrived_by, found.arrival_note) == (cast.people["tess"].id, "dry, no mould")
    with pytest.raises(Refused, match="Take that back first"):
        came(cast, one, at=time(9))
    for _ in range(2):
        taken_back(cast, one)
    found = stands(cast, one)
    assert (found.arrived_at, found.arrived_by, found.arrival_note) == (None, None, "")
    came(cast, one, at=time(9))
    assert told(cast) == [(False, True, "dry, no mould"), (True, False, ""), (False, True, "")]


@pytest.mark.parametrize(
    ("day", "says"),
    [
        (TODAY + timedelta(days=1), "still to come"),
        (COLLECTED - timedelta(days=1), "collected after this day"),
    ],
)
def test_a_moment_that_cannot_be_is_refused(cast: Cast, scene: Scene, day: date, says: str) -> None:
    one = handed_in(cast, scene)
    with pytest.raises(Refused, match=says):
        came(cast, one, day)
    assert stands(cast, one).arrived_at is None


def test_it_stays_through_a_return_and_a_new_revision(cast: Cast, scene: Scene) -> None:
    one = sent_back(cast, scene)
    came(cast, one)
    with cast.work("alice") as work:
        newest = queries.newest_revision(work, queries.get(work, one))
        data = queries.collection_of(newest)
        actions.hand_in(work, submission_id=one, data=type(data)(**{**vars(data), "notes": "Counted again."}))
    found = stands(cast, one)
    assert found.arrived_at is not None
    assert found.urgency_rank == rank_in_queue(found.urgency, arrived=True)


def test_a_draft_has_sent_no_seed_and_strangers_find_nothing(cast: Cast, scene: Scene) -> None:
    with pytest.raises(Refused, match="still a draft"):
        came(cast, begun(cast, scene))
    one = handed_in(cast, scene)
    for name in ("dora", "charlie"):
        with pytest.raises(NotFound):
            came(cast, one, name=name)


def test_what_is_still_on_its_way_comes_before_what_has_come(cast: Cast, scene: Scene) -> None:
    """Three like collections: one on its way, one that the group says it brought, one that the bank has."""
    here, said, coming = (handed_in(cast, scene, people=n, reached_bank_on=day) for n, day in
                          ((1, None), (2, COLLECTED), (3, None)))  # fmt: skip
    came(cast, here)
    ranks = [stands(cast, each).urgency_rank for each in (coming, said, here)]
    assert ranks == [4, 5, 5]
    taken_back(cast, here)
    assert stands(cast, here).urgency_rank == 4


def test_the_kind_of_seed_always_weighs_more_than_where_it_is() -> None:
    places = [rank_in_queue(kind, arrived=here) for kind, here in product(Urgency, (False, True))]
    assert places == sorted(places) == list(range(6))
