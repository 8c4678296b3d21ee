"""Every verb in every state, and every pair of states: what the table does not know changes nothing."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import nullcontext
from datetime import time
from itertools import product
from typing import Any

import pytest

from hub.vetting import actions, queries
from hub.vetting.rules import SUBMISSION_MOVES, PhotographKind, SubmissionState
from hub.words import Refused
from tests.vetting.pictures import picture_of
from tests.vetting.scene import COLLECTED, begun, collection, set_scene, stands

State = SubmissionState
VERBS: dict[str, tuple[str, set[State], Callable[[int], dict[str, Any]]]] = {
    "save_draft": ("bob", {State.DRAFT, State.RETURNED}, lambda at: {"draft": [("notes", "x")]}),
    "hand_in": ("alice", {State.DRAFT, State.RETURNED}, lambda at: {"data": collection(people=at + 1)}),
    "withdraw": ("alice", {State.DRAFT}, lambda at: {}),
    "send_back": ("cora", {State.HANDED_IN}, lambda at: {"remarks": "Again, please."}),
    "decline": ("cora", {State.HANDED_IN, State.RETURNED}, lambda at: {"reason": "Mould."}),
    "seed_arrived": (
        "tess",
        {State.HANDED_IN, State.RETURNED, State.APPROVED},
        lambda at: {"day": COLLECTED, "at": time(20, at)},
    ),
    "add_photograph": (
        "bob",
        {State.DRAFT, State.RETURNED},
        lambda at: {"kind": PhotographKind.PLANT, "upload": picture_of()},
    ),
}


def put(cast, submission_id, state):
    with cast.everywhere() as work:
        found = queries.get(work, submission_id)
        found.state, found.arrived_at = state, None


@pytest.fixture
def submission_id(cast):
    return begun(cast, set_scene(cast))


def test_every_pair_of_states(cast, submission_id):
    for before, after in product(State, State):
        put(cast, submission_id, before)
        if after in SUBMISSION_MOVES[before]:
            move(cast, submission_id, after)
            assert stands(cast, submission_id).state is after
        else:
            with pytest.raises(Refused):
                move(cast, submission_id, after)
            assert stands(cast, submission_id).state is before


def move(cast, submission_id, to):
    with cast.work("cora") as work:
        actions.move(work, submission=queries.get(work, submission_id, locked=True), to=to)


@pytest.mark.parametrize("verb", VERBS)
def test_every_verb_in_every_state(cast, submission_id, verb):
    name, allowed, given = VERBS[verb]
    act = getattr(actions, verb)
    for at, state in enumerate(State):
        put(cast, submission_id, state)
        before = stands(cast, submission_id).version
        with cast.work(name) as work, nullcontext() if state in allowed else pytest.raises(Refused):
            act(work, submission_id=submission_id, **given(at))
        if state not in allowed:
            assert stands(cast, submission_id).version == before
