"""Salvage: evidence, the owner's agreement and the curator's approval, in any order, all three."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import permutations

import pytest

from hub.db.work import Work
from hub.sites import actions, queries
from hub.sites.models import Salvage
from hub.sites.rules import SalvageState
from hub.words import NotFound, Refused
from tests.cast import Cast
from tests.sites.scene import TODAY, opened


@pytest.fixture
def case(cast: Cast) -> Salvage:
    _, population = opened(cast)
    with cast.work("alice") as work:
        return actions.ask_salvage(
            work,
            population_id=population.id,
            evidence="Planning decision 17.",
            evidence_on=date(2031, 6, 30),
            loss_expected_on=date(2031, 8, 20),
        )


def agree(work: Work, case: Salvage) -> Salvage:
    return actions.agree_salvage(work, salvage_id=case.id, on=TODAY)


def approve(work: Work, case: Salvage) -> Salvage:
    return actions.decide_salvage(work, salvage_id=case.id, approve=True, reason="Seen on the ground.")


def refuse(work: Work, case: Salvage) -> Salvage:
    return actions.decide_salvage(work, salvage_id=case.id, approve=False, reason="The road was moved.")


STEPS = {"agree": ("alice", agree), "approve": ("cora", approve)}


@pytest.mark.parametrize("order", list(permutations(STEPS)))
def test_both_words_in_either_order(cast: Cast, case: Salvage, order: tuple[str, ...]) -> None:
    states = []
    for step in order:
        name, act = STEPS[step]
        with cast.work(name) as work:
            states.append(act(work, case).state)
    assert states == [SalvageState.ASKED, SalvageState.APPROVED]
    with cast.work("alice") as work:
        found = queries.salvage_of(work, case.population_id)
        assert found is not None
        assert found.id == case.id


@pytest.mark.parametrize("step", STEPS)
def test_one_word_is_not_enough(cast: Cast, case: Salvage, step: str) -> None:
    name, act = STEPS[step]
    with cast.work(name) as work:
        act(work, case)
    with cast.work("alice") as work:
        assert queries.salvage_of(work, case.population_id) is None


@pytest.mark.parametrize("step", STEPS)
def test_nothing_is_said_twice(cast: Cast, case: Salvage, step: str) -> None:
    name, act = STEPS[step]
    with cast.work(name) as work:
        act(work, case)
    with pytest.raises(Refused), cast.work(name) as work:
        act(work, case)


@pytest.mark.parametrize("before", [[], ["agree"], ["approve"], ["agree", "approve"]])
def test_the_curators_no_settles_it(cast: Cast, case: Salvage, before: list[str]) -> None:
    for step in before:
        name, act = STEPS[step]
        with cast.work(name) as work:
            act(work, case)
    with cast.work("cora") as work:
        assert refuse(work, case).state is SalvageState.REFUSED
    for name, act in (*STEPS.values(), ("cora", refuse)):
        with pytest.raises(Refused), cast.work(name) as work:
            act(work, case)


def test_a_second_case_waits_for_the_first_to_be_refused(cast: Cast, case: Salvage) -> None:
    again = {"population_id": case.population_id, "evidence": "A new plan.", "evidence_on": TODAY}
    with pytest.raises(Refused, match="already"), cast.work("alice") as work:
        actions.ask_salvage(work, **again)
    with cast.work("cora") as work:
        refuse(work, case)
    with cast.work("alice") as work:
        assert actions.ask_salvage(work, **again).state is SalvageState.ASKED


def test_evidence_is_not_from_tomorrow(cast: Cast) -> None:
    _, population = opened(cast)
    with pytest.raises(Refused) as refusal, cast.work("alice") as work:
        actions.ask_salvage(work, population_id=population.id, evidence="x", evidence_on=date(2031, 7, 15))
    assert refusal.value.field == "evidence_on"


@pytest.mark.parametrize("stranger", ["charlie", "dora"])
def test_strangers_find_no_case(cast: Cast, case: Salvage, stranger: str) -> None:
    with pytest.raises(NotFound), cast.work(stranger) as work:
        agree(work, case)


def test_no_approval_without_the_day_of_the_loss(cast: Cast) -> None:
    """An approval lifts every limit, so it must end by itself."""
    _, population = opened(cast)
    with cast.work("alice") as work:
        case = actions.ask_salvage(work, population_id=population.id, evidence="x", evidence_on=TODAY)
    with pytest.raises(Refused, match="by when"), cast.work("cora") as work:
        approve(work, case)


def test_no_approval_after_the_day_of_the_loss(cast: Cast, case: Salvage) -> None:
    later = cast.now + timedelta(days=38)  # 21 August
    with pytest.raises(Refused, match="should have been lost"), cast.work("cora", now=later) as work:
        approve(work, case)


@pytest.mark.parametrize(("days", "holds"), [(37, True), (38, False)])
def test_an_approval_lasts_until_the_day_of_the_loss(
    cast: Cast, case: Salvage, days: int, holds: bool
) -> None:
    for name, act in STEPS.values():
        with cast.work(name) as work:
            act(work, case)
    with cast.everywhere(now=cast.now + timedelta(days=days)) as work:
        assert (queries.salvage_of(work, case.population_id) is not None) is holds


@pytest.mark.parametrize(("days", "holds"), [(548, True), (549, False)])
def test_an_old_case_without_a_day_lasts_eighteen_months(
    cast: Cast, case: Salvage, days: int, holds: bool
) -> None:
    with cast.everywhere() as work:
        stored = queries.get_salvage(work, case.id)
        stored.state, stored.loss_expected_on = SalvageState.APPROVED, None
    with cast.everywhere(now=cast.now + timedelta(days=days)) as work:
        assert (queries.salvage_of(work, case.population_id) is not None) is holds
