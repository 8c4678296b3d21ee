"""States, urgency, deadlines and what is missing: the rules that need no store."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import UTC, datetime, time
from types import SimpleNamespace as Thing
from zoneinfo import ZoneInfo

import pytest

from hub.vetting.collection import AfterCare, DrynessProof
from hub.vetting.rules import (
    SUBMISSION_MOVES,
    URGENCY_ORDER,
    WRITABLE,
    PhotographKind,
    SubmissionState,
    Urgency,
)
from hub.vetting.still_missing import still_missing
from hub.vetting.urgency import deadline_of, urgency_of
from tests.vetting.scene import COLLECTED, collection, in_bulk


@dataclass
class SheetOf:
    """As much of a sheet as urgency reads."""

    route: str = "dry"
    fruit: str = "dry_capsule"
    hours: float | None = 24

    @property
    def case(self):
        return {"taxon": {"fruit_type": self.fruit}}

    @property
    def headline(self):
        return Thing(hours_to_bank=Thing(value=self.hours))


def test_every_state_has_its_moves_and_nothing_leaves_an_end():
    assert set(SUBMISSION_MOVES) == set(SubmissionState)
    ends = {state for state, moves in SUBMISSION_MOVES.items() if not moves}
    assert ends == {SubmissionState.APPROVED, SubmissionState.DECLINED, SubmissionState.WITHDRAWN}
    assert all(SubmissionState.HANDED_IN in SUBMISSION_MOVES[state] for state in WRITABLE)


@pytest.mark.parametrize("route", ["moist", "untested", "spores", "fast"])
def test_seed_that_dies_on_the_way_comes_first(route):
    assert urgency_of(SheetOf(route), collection()) is Urgency.ALIVE


@pytest.mark.parametrize(
    ("fruit", "after_care", "urgency"),
    [
        ("fleshy", AfterCare.AIR_DRIED, Urgency.DAMP),
        ("fleshy_cone", AfterCare.GEL_DRIED, Urgency.DAMP),
        ("dry_capsule", AfterCare.HANDED_OVER, Urgency.DAMP),
        ("dry_capsule", AfterCare.KEPT_MOIST, Urgency.DAMP),
        ("dry_capsule", AfterCare.OTHER, Urgency.DAMP),
        ("dry_capsule", AfterCare.AIR_DRIED, Urgency.DRY),
        ("nut", AfterCare.GEL_DRIED, Urgency.DRY),
    ],
)
def test_fleshy_or_undried_seed_comes_before_dry_seed(fruit, after_care, urgency):
    assert urgency_of(SheetOf(fruit=fruit), collection(after_care=after_care)) is urgency
    assert URGENCY_ORDER[Urgency.ALIVE] < URGENCY_ORDER[Urgency.DAMP] < URGENCY_ORDER[Urgency.DRY]


def test_the_hours_to_the_bank_count_from_the_end_of_collecting_in_the_bank_s_zone():
    azores = ZoneInfo("Atlantic/Azores")  # UTC+0 in summer, UTC-1 in winter (IANA time zone database)
    july = deadline_of(SheetOf(), collection(finished_at=time(12, 15)), azores)
    assert july == datetime(2031, 7, 13, 12, 15, tzinfo=UTC)
    winter = replace(collection(finished_at=time(12, 15)), collected_on=COLLECTED.replace(month=12))
    assert deadline_of(SheetOf(), winter, azores) == datetime(2031, 12, 13, 13, 15, tzinfo=UTC)


def test_without_a_time_of_day_the_careful_reading_counts():
    bare = collection(started_at=None, finished_at=None)
    assert deadline_of(SheetOf(), bare, ZoneInfo("UTC")) == datetime(2031, 7, 13, tzinfo=UTC)
    assert deadline_of(SheetOf(hours=None), bare, ZoneInfo("UTC")) is None


def test_a_whole_collection_misses_nothing():
    whole = collection(dryness=DrynessProof.CARD)
    assert still_missing(whole, set(PhotographKind)) == []


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"voucher": None}, "a pressed specimen"),
        ({"identified_by": ""}, "who identified the plants"),
        ({"plants_seen": None}, "how many plants were seen that day"),
        ({"plants_fruiting": None}, "how many of them were in fruit"),
        ({"first_ripe_on": None}, "when the first ripe fruit was seen"),
        ({"cut_test": None}, "a cut test"),
        ({"finished_at": None}, "at what time collecting ended"),
        ({"drying_days": None}, "for how long the seed was dried"),
        ({"dryness": DrynessProof.NONE}, "what showed that the seed was dry"),
        ({"frozen": True}, "on which day the seed was frozen"),
        ({"after_care": AfterCare.OTHER}, "in the notes, what was used or done with the seed instead"),
    ],
)
def test_each_thing_left_out_is_named(change, words):
    pictures = set(PhotographKind) - {PhotographKind.VOUCHER}
    whole = collection(dryness=DrynessProof.CARD)
    assert [str(each) for each in still_missing(replace(whole, **change), pictures)] == [words]


def test_what_the_sheet_forbids_is_not_asked_for():
    bare = replace(collection(dryness=DrynessProof.CARD), cut_test=None, voucher=None)
    pictures = set(PhotographKind) - {PhotographKind.VOUCHER}
    assert still_missing(bare, pictures, specimen=False, cut=False) == []


def test_fruits_left_uncounted_are_asked_for():
    bulk = in_bulk(dryness=DrynessProof.CARD)
    uncounted = replace(bulk, bulk=replace(bulk.bulk, fruits_taken=None))
    missing = still_missing(uncounted, set(PhotographKind))
    assert [str(each) for each in missing] == ["how many fruits were taken"]
