"""The path of a season: every step done in its turn, one next, and a button only there."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.adoptions.rules import AdoptionState
from hub.progress.known import Known, Step, StepState
from hub.progress.season_path import path_of
from hub.progress.season_steps import STEPS
from hub.sites.rules import PermissionState
from hub.taxa.rules import StorageBehaviour
from hub.vetting.rules import SubmissionState
from hub.words import say

START = Known(
    adoption_id="adoption",
    state=AdoptionState.REQUESTED,
    adopted_on=date(2031, 2, 3),
    today=date(2031, 7, 14),
    storage=StorageBehaviour.ORTHODOX,
    ripens_on=date(2031, 7, 1),
    ripe=say("usually in July"),
    bank="Fell Bank",
)
PLACE = {"population_id": "population", "site_id": "site", "owner": "The estate"}
GRANTED = {"permission": PermissionState.GRANTED, "permission_holds": True}
READY = {"sheet_id": "sheet", "sheet_status": "ready", "kept_seeds": 400}
STORY: list[tuple[dict[str, Any], str, str]] = [
    ({}, "Adopt", "adoptions.adoption"),
    ({"state": AdoptionState.ACTIVE}, "Ask permission", "adoptions.adoption"),
    (PLACE, "Ask permission", "sites.letter"),
    ({"permission": PermissionState.TO_ASK}, "Ask permission", "sites.letter"),
    ({"permission": PermissionState.ASKED}, "Ask permission", "sites.site"),
    (GRANTED, "Scout", "sites.census"),
    ({"counted_on": date(2031, 6, 1), "plants": 240}, "Watch it ripen", "protocols.issue"),
    ({"sheet_id": "sheet", "sheet_status": "not_yet"}, "Watch it ripen", "protocols.sheet"),
    (READY, "Collect", "protocols.sheet"),
    ({"submission": SubmissionState.DRAFT, "submission_id": "it"}, "Dry it", "vetting.write"),
    ({"submission": SubmissionState.RETURNED}, "Hand in", "vetting.submission"),
    ({"submission": SubmissionState.HANDED_IN}, "Hand in", "vetting.handed_in"),
    ({"arrived": True}, "Banked", "vetting.submission"),
    (
        {"submission": SubmissionState.APPROVED, "accession_number": "FELL-2031-0001-K"},
        "Banked",
        "vetting.submission",
    ),
]


def next_of(known: Known) -> Step:
    return next(step for step in path_of(known) if step.state is StepState.NEXT)


def test_the_season_goes_from_step_to_step() -> None:
    known = START
    for change, title, endpoint in STORY:
        known = replace(known, **change)
        step = next_of(known)
        assert (str(step.title), step.ways[0].endpoint) == (title, endpoint)
        assert step.about is not None
    done = path_of(replace(known, safe=True))
    assert all(step.state is StepState.DONE for step in done)
    assert str(done[-1].about) == "Number FELL-2031-0001-K."


def test_collecting_says_how_much_and_leads_on() -> None:
    known = replace(
        START, state=AdoptionState.ACTIVE, counted_on=date(2031, 6, 1), **PLACE, **GRANTED, **READY
    )
    step = next_of(known)
    assert str(step.about) == "Your group may take at most 400 seeds."
    assert [way.endpoint for way in step.ways] == ["protocols.sheet", "vetting.new_hand_in"]
    assert str(next_of(replace(known, kept_seeds=1)).about).endswith("1 seed.")


DRAFTED = replace(
    START,
    state=AdoptionState.ACTIVE,
    counted_on=date(2031, 6, 1),
    submission_id="it",
    submission=SubmissionState.HANDED_IN,
    due="Sat, 19 Jul 2031, 12:15 UTC",
    span=say("{n} days", n=7),
    **PLACE,
    **GRANTED,
    **READY,
)


def test_what_is_handed_in_must_be_brought_by_its_hour() -> None:
    words = "Bring the seed to Fell Bank by Sat, 19 Jul 2031, 12:15 UTC: your sheet gives it 7 days from "
    assert str(next_of(DRAFTED).about) == words + "collecting."
    late = str(next_of(replace(DRAFTED, overdue=True)).about)
    assert "should have been at Fell Bank by Sat" in late
    assert "Bring it today" in late
    assert str(next_of(replace(DRAFTED, due="")).about) == "Bring the seed to Fell Bank as your sheet says."


def test_a_question_of_the_bank_does_not_hide_the_hour() -> None:
    returned = replace(DRAFTED, submission=SubmissionState.RETURNED)
    assert str(next_of(returned).about).startswith("The bank has a question. Bring the seed to Fell Bank by")
    assert str(next_of(replace(returned, arrived=True)).about) == "The bank has a question."


def test_seed_at_home_is_told_how_long_it_may_stay() -> None:
    about = str(next_of(replace(DRAFTED, submission=SubmissionState.DRAFT)).about)
    assert about.endswith("It must be at Fell Bank within 7 days of collecting.")


def test_the_words_of_a_step_are_true_of_its_state() -> None:
    """What is done is not asked for again, and what is to come has no “now”."""
    steps = {str(step.title): step for step in path_of(replace(DRAFTED, collected_on=date(2031, 7, 12)))}
    assert str(steps["Collect"].day) == "2031-07-12"
    assert steps["Watch it ripen"].about is None
    waiting = {str(step.title): step for step in path_of(START)}
    assert waiting["Scout"].day is None
    assert str(waiting["Collect"].day) == "usually in July"


def test_a_permission_that_was_never_noted_is_not_said_to_be_granted() -> None:
    unpermitted = replace(DRAFTED, permission=None, permission_holds=False)
    step = next(step for step in path_of(unpermitted) if str(step.title) == "Ask permission")
    assert (step.state, step.person) == (StepState.DONE, None)
    assert "No permission is noted here" in str(step.about)


def test_a_fulfilled_adoption_asks_for_nothing_more() -> None:
    steps = path_of(replace(START, state=AdoptionState.FULFILLED, **PLACE))
    assert {step.state for step in steps} == {StepState.DONE, StepState.UNNEEDED}
    assert not any(step.ways for step in steps)


def test_nobody_collects_before_the_fruit_is_ripe_or_under_a_stop() -> None:
    known = replace(
        START, state=AdoptionState.ACTIVE, counted_on=date(2031, 6, 1), **PLACE, **GRANTED, **READY
    )
    assert str(next_of(replace(known, ripens_on=date(2031, 8, 1))).title) == "Watch it ripen"
    assert str(next_of(replace(known, ripens_on=None)).title) == "Collect"
    stopped = next_of(replace(known, sheet_status="stop"))
    assert "do not collect here" in str(stopped.about)


@pytest.mark.parametrize("behaviour", StorageBehaviour)
def test_seed_that_dies_dry_is_never_told_to_dry(behaviour: StorageBehaviour) -> None:
    titles = [str(step.title) for step in path_of(replace(START, storage=behaviour))]
    moist = behaviour in ("recalcitrant", "unresolved", "exceptional", "unknown")
    assert ("Dry it" in titles, "Keep it moist and cool" in titles) == (not moist, moist)


@pytest.mark.parametrize(
    "state", [PermissionState.REFUSED, PermissionState.EXPIRED, PermissionState.WITHDRAWN]
)
def test_without_a_permission_that_holds_nobody_goes_on(state: PermissionState) -> None:
    known = replace(START, state=AdoptionState.ACTIVE, permission=state, **PLACE, **READY)
    assert "Nobody collects here" in str(next_of(known).about)


def test_a_paused_adoption_has_nothing_to_do() -> None:
    paused = path_of(replace(START, state=AdoptionState.SUSPENDED, **PLACE))
    assert StepState.NEXT not in {step.state for step in paused}
    assert not any(step.ways for step in paused)


FACTS = st.fixed_dictionaries(
    {
        "state": st.sampled_from(AdoptionState),
        "storage": st.sampled_from(StorageBehaviour),
        "ripens_on": st.none() | st.dates(date(2031, 1, 1), date(2031, 12, 31)),
        "population_id": st.none() | st.just("population"),
        "site_id": st.just("site"),
        "permission": st.none() | st.sampled_from(PermissionState),
        "permission_holds": st.booleans(),
        "counted_on": st.none() | st.just(date(2031, 6, 1)),
        "plants": st.none() | st.integers(0, 9999),
        "sheet_id": st.none() | st.just("sheet"),
        "sheet_status": st.sampled_from(["", "ready", "not_yet", "stop"]),
        "kept_seeds": st.integers(0, 9999),
        "submission": st.none() | st.sampled_from(SubmissionState),
        "due": st.sampled_from(["", "Sat, 19 Jul 2031, 12:15 UTC"]),
        "span": st.none() | st.just(say("7 days")),
        "overdue": st.booleans(),
        "arrived": st.booleans(),
        "safe": st.booleans(),
        "accession_number": st.sampled_from(["", "FELL-2031-0001-K"]),
    }
)


@given(FACTS)
def test_whatever_is_known_the_path_is_whole(facts: dict[str, Any]) -> None:
    steps = path_of(replace(START, **facts))
    assert len(steps) == len(STEPS) == 8
    nexts = [at for at, step in enumerate(steps) if step.state is StepState.NEXT]
    assert len(nexts) <= 1
    for at, step in enumerate(steps):
        assert (step.state is StepState.DONE) <= step.done
        assert bool(step.ways) <= (at in nexts)
        assert (step.state is StepState.NEXT) <= (step.person is not None)
    if nexts:
        assert all(step.done for step in steps[: nexts[0]])
