"""What must hold of every evidence: no check fails, answers agree, and worse figures never silence a stop."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hub.protocols.sheet import Sheet
from hub.vetting.checks import CHECKS, findings
from hub.vetting.evidence import Evidence
from hub.vetting.finding import Finding
from hub.vetting.rules import Severity
from hub.words import Words
from tests.vetting.checks.any_evidence import ANY_SHEET, EVIDENCE

Worsened = Callable[[Evidence, int], Evidence]


def stops(found: list[Finding]) -> set[str]:
    return {each.check for each in found if each.severity is Severity.STOP}


def under(evidence: Evidence, sheet: Sheet) -> Evidence:
    return replace(evidence, sheet=replace(evidence.sheet, sheet=sheet))


@given(st.builds(under, EVIDENCE, ANY_SHEET))
def test_the_answers_are_the_same_each_time_and_can_be_stored(evidence: Evidence) -> None:
    found = findings(evidence)
    assert found == findings(evidence)
    keys = [(each.check, each.about) for each in found]
    assert len(set(keys)) == len(keys)
    assert {each.check for each in found} <= {check.id for check in CHECKS}
    for each in found:
        assert Words.from_json(json.loads(json.dumps(each.words.as_json()))) == each.words
        assert json.loads(json.dumps(dict(each.figures), allow_nan=False)) == each.figures
        assert max(len(each.check), len(each.about)) <= 60
        assert str(each.source)
        # Curators read it as well as the group, so it speaks of the seed and to nobody.
        assert not re.search(r"\byou(r|rs)?\b", str(each.words), re.IGNORECASE)


def given_with(**changes: Callable[[Any, int], Any]) -> Worsened:
    """Make figures of the collection worse where they are known."""

    def worse(evidence: Evidence, by: int) -> Evidence:
        known = {name: getattr(evidence.collection, name) for name in changes}
        moved = {name: changes[name](value, by) for name, value in known.items() if value is not None}
        return replace(evidence, collection=replace(evidence.collection, **moved))

    return worse


def taken_from_all(evidence: Evidence, by: int) -> Evidence:
    """More fruits from every mother and in bulk; the account and the permits feel it too."""
    collection, account = evidence.collection, evidence.account
    tallies = tuple(replace(each, fruits_taken=each.fruits_taken + by) for each in collection.tallies)
    bulk = collection.bulk
    if bulk and bulk.fruits_taken is not None:
        bulk = replace(bulk, fruits_taken=bulk.fruits_taken + by)
    papers = replace(
        evidence.papers,
        permits=tuple(replace(each, used_seeds=each.used_seeds + by) for each in evidence.papers.permits),
    )
    return replace(
        evidence,
        collection=replace(collection, tallies=tallies, bulk=bulk),
        account=account and replace(account, taken_seeds=account.taken_seeds + by),
        papers=papers,
    )


def without_papers(evidence: Evidence, by: int) -> Evidence:
    return replace(evidence, papers=replace(evidence.papers, permission=None))


WORSE: dict[str, Worsened] = {
    "more fruit taken": taken_from_all,
    "no permission": without_papers,
    "the place less sure": given_with(uncertainty_m=lambda value, by: value + by),
    "less filled seed": given_with(cut_test=lambda test, by: replace(test, filled=max(test.filled - by, 0))),
    "longer on the way": given_with(hours_to_bank=lambda value, by: value + by),
    "later at the bank": given_with(reached_bank_on=lambda value, by: value + timedelta(days=by)),
    "later to dry": given_with(drying_from=lambda value, by: value + timedelta(days=by)),
    "damper": given_with(dryness_rh_pct=lambda value, by: value + by),
    "frozen": given_with(frozen=lambda value, by: True),
    "first ripe fruit seen later": given_with(first_ripe_on=lambda value, by: value + timedelta(days=by)),
    "nothing shed": given_with(already_shedding=lambda value, by: False),
}


@pytest.mark.parametrize("worse", WORSE.values(), ids=WORSE)
@settings(max_examples=40)
@given(evidence=EVIDENCE, by=st.integers(1, 1000))
def test_worse_never_silences_a_stop(worse: Worsened, evidence: Evidence, by: int) -> None:
    assert stops(findings(evidence)) <= stops(findings(worse(evidence, by)))


@given(EVIDENCE)
def test_nothing_missing_is_held_against_more_than_a_question(evidence: Evidence) -> None:
    """What was not counted or seen may raise a question, and no more."""
    given_less = replace(
        evidence.collection, plants_seen=None, plants_fruiting=None, first_ripe_on=None, visits_before=None
    )
    bare = replace(evidence, collection=given_less)
    assert stops(findings(bare)) <= stops(findings(evidence))
