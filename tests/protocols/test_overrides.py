"""A bank tightens freely, loosens only as far as a rule lets it, and never past permission or law."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from hub.protocols.engine import issue
from hub.protocols.overrides import Override, refusal
from hub.protocols.sheet import Status
from tests.protocols.conftest import DAY

WIDER = Override(
    rule="take.secure",
    figure="season_share",
    value=0.2,
    by="The curator",
    on=date(2030, 4, 1),
    reason="A very large population",
    expires=date(2030, 12, 31),
    evidence="Census of 2029",
)
STRICTER = replace(WIDER, value=0.05, evidence="", reason="A dry spring")


def test_a_curator_may_widen_the_share_of_a_common_plant_to_a_fifth(case_with, rulebook):
    sheet = issue(case_with(), rulebook, [WIDER], on=DAY)
    assert sheet.headline.season_share.value == 0.2
    assert sheet.headline.left_seeds.value == 24_000


def test_the_sheet_prints_who_why_until_when_and_on_what_evidence(case_with, rulebook):
    (line,) = issue(case_with(), rulebook, [WIDER], on=DAY).overrides
    assert (line.old, line.new, line.by, line.reason) == (0.1, 0.2, WIDER.by, WIDER.reason)
    assert (line.expires, line.evidence, line.refused) == (WIDER.expires, WIDER.evidence, None)


def test_tightening_needs_no_evidence(case_with, rulebook):
    sheet = issue(case_with(), rulebook, [STRICTER], on=DAY)
    assert sheet.headline.left_seeds.value == 6_000


@pytest.mark.parametrize("order", [(WIDER, STRICTER), (STRICTER, WIDER)])
def test_of_two_changes_the_more_careful_stands(order, case_with, rulebook):
    assert issue(case_with(), rulebook, order, on=DAY).headline.season_share.value == 0.05


@pytest.mark.parametrize(
    "override",
    [
        replace(WIDER, value=0.21),
        replace(WIDER, evidence=" "),
        replace(WIDER, by=""),
        replace(WIDER, reason=""),
        replace(WIDER, expires=date(2030, 7, 31)),
        replace(WIDER, on=date(2030, 8, 2)),
        replace(WIDER, value="all"),
        replace(WIDER, value=1.5),
        replace(WIDER, value=-0.1),
        replace(WIDER, rule="take.nothing-like-it"),
        replace(WIDER, figure="colour"),
        replace(WIDER, rule="take.rare", value=0.11),
        replace(WIDER, rule="take.visit", figure="visit_share", value=0.3),
        replace(WIDER, rule="handling.rare", figure="handling", value="bulk"),
        replace(WIDER, rule="handling.salvage", figure="handling", value="bulk"),
        replace(WIDER, rule="drying.never", figure="drying", value="home"),
        replace(WIDER, rule="freezing.never", figure="freezing", value="bank"),
        replace(WIDER, rule="take.signed", value=0.01),
        replace(WIDER, rule="container.paper", figure="container", value="moist_bag"),
    ],
    ids=lambda each: f"{each.rule} {each.figure}={each.value} by {each.by!r}",
)
def test_what_may_not_stand_is_refused_in_words_and_changes_nothing(override, case_with, rulebook):
    sheet = issue(case_with(), rulebook, [override], on=DAY)
    assert str(refusal(override, rulebook, DAY))
    assert sheet.overrides[0].refused is not None
    assert replace(sheet, overrides=()) == issue(case_with(), rulebook, on=DAY)


@pytest.mark.parametrize("papers", ["permission", "permit"])
def test_nobody_lifts_permission_or_permit(papers, rulebook):
    rules = [rule for rule in rulebook.rules if rule.id.startswith(f"stop.{papers}")]
    assert len(rules) >= 3
    for rule in rules:
        lift = replace(WIDER, rule=rule.id, figure="verdict", value="lifted")
        assert refusal(lift, rulebook, DAY) is not None


@pytest.mark.parametrize("stop", ["gone", "identity", "sown", "critical-unsigned", "spent", "few-plants"])
def test_nobody_lifts_what_protects_the_last_plants(stop, rulebook):
    lift = replace(WIDER, rule=f"stop.{stop}", figure="verdict", value="lifted")
    assert refusal(lift, rulebook, DAY) is not None


def test_a_curator_may_lift_the_stop_for_empty_seed(case_with, rulebook):
    case = case_with(crop={"empty_share": 0.6})
    lift = replace(WIDER, rule="stop.empty-seed", figure="verdict", value="lifted")
    assert issue(case, rulebook, on=DAY).status is Status.STOP
    assert issue(case, rulebook, [lift], on=DAY).status is Status.READY


def test_a_curator_opens_more_seasons_for_a_rare_plant_up_to_five_in_ten(case_with, rulebook):
    consent = {"by": "The curator", "on": date(2030, 5, 1)}
    case = case_with(
        taxon={"care_class": "rare"}, sign_off=consent, history={"years_collected": [2022, 2024, 2027]}
    )
    opened = replace(WIDER, rule="seasons.rare", figure="seasons_in_ten", value=5)
    assert issue(case, rulebook, on=DAY).status is Status.STOP
    assert issue(case, rulebook, [opened], on=DAY).status is Status.READY
    assert refusal(replace(opened, value=6), rulebook, DAY) is not None


def test_a_curator_may_have_a_small_population_of_a_common_plant_in_bulk(case_with, rulebook):
    case = case_with(population={"plants": 45, "fruiting_plants": 45})
    mixed = replace(WIDER, rule="handling.few-plants", figure="handling", value="bulk")
    handling = issue(case, rulebook, [mixed], on=DAY).headline.handling
    assert (handling.value, handling.rules) == ("bulk", ("handling.bulk",))


def test_every_text_follows_the_changed_number(case_with, rulebook):
    head = issue(
        case_with(), rulebook, [replace(STRICTER, rule="hours.dry", figure="hours_to_bank", value=48)], on=DAY
    )
    assert "within 2 days" in str(head.headline.hours_to_bank.text)
    assert "within 2 days" in str(head.headline.hours_to_bank.plain)
