"""Worked figures: crops, allowances, mothers, and the table of fruits."""

from __future__ import annotations

import pytest

from hub.protocols.engine import issue
from hub.protocols.sheet import FruitRow, Section
from tests.protocols.conftest import DAY


def _head(case, rulebook):
    return issue(case, rulebook, on=DAY).headline


def test_a_plant_with_forty_ripe_fruits_gives_four(case_with, rulebook):
    head = _head(case_with(), rulebook)
    assert FruitRow(ripe_fruits=40, take_fruits=4, take_seeds=100) in head.fruit_table
    assert head.none_below == 10


@pytest.mark.parametrize(
    ("plants", "rows"),
    [
        (400, [(10, 1), (20, 2), (30, 3), (40, 4), (50, 5), (100, 9)]),
        (40, [(20, 1), (40, 1), (60, 1), (80, 1), (100, 1), (200, 1)]),
    ],
)
def test_one_plant_never_gives_more_than_its_part_of_what_is_left(plants, rows, case_with, rulebook):
    """400 plants × 12 fruits × 10% = 480 fruits, 9 from each of 50 mothers; 40 plants × 12 × 5% = 24."""
    head = _head(case_with(population={"plants": plants, "fruiting_plants": plants}), rulebook)
    assert [(row.ripe_fruits, row.take_fruits) for row in head.fruit_table] == rows


def test_mothers_are_no_more_than_plants_or_whole_fruits(case_with, rulebook):
    few_plants = _head(case_with(population={"plants": 60, "fruiting_plants": 35}), rulebook)
    assert (few_plants.mothers_goal.value, few_plants.mothers_minimum.value) == (21, 21)  # 35 × 12 × 5% = 21
    many = _head(case_with(), rulebook)
    assert (many.mothers_goal.value, many.mothers_minimum.value) == (50, 30)


def test_a_rescue_reaches_every_mother(case_with, rulebook):
    doomed = {"curator": "The curator", "owner": "The owner", "evidence": "Road order 12", "evidence_on": DAY}
    head = _head(case_with(salvage=doomed), rulebook)
    assert (head.mothers_goal.value, head.mothers_goal.rules[0]) == (400, "mothers.salvage")


def test_everything_is_rounded_down(case_with, rulebook):
    """99 plants × 7 fruits × 3 seeds = 2,079; a tenth is 207.9 seeds, or 69 fruits of 3."""
    case = case_with(
        population={"plants": 99, "fruiting_plants": 99},
        crop={"ripe_fruits_per_plant": 7, "good_seeds_per_fruit": 3},
    )
    head = _head(case, rulebook)
    assert (head.allowance_seeds.value, head.allowance_fruits.value) == (207, 69)


def test_an_uncertain_count_lowers_the_allowance_and_shows_its_interval(case_with, rulebook):
    head = _head(case_with(population={"fruiting_plants_se": 60}), rulebook)
    assert head.crop_seeds.value == 120_000
    assert 0 < head.allowance_seeds.value < 12_000
    assert {"low", "high"} <= set(head.crop_seeds.text.values)


def test_figures_name_the_facts_that_decided_them(case_with, rulebook):
    head = _head(case_with(history={"taken_seeds": 500}), rulebook)
    assert head.left_seeds.inputs["taken_seeds"] == 500
    assert head.left_seeds.inputs["fruiting_plants"] == 400
    assert head.season_share.rules == ("take.secure",)


def test_a_stopped_sheet_names_the_stop_behind_its_nothing(case_with, rulebook):
    head = _head(case_with(taxon={"care_class": "gone"}), rulebook)
    assert head.left_seeds.rules[0] == "stop.gone"
    assert head.left_seeds.value == 0
    assert str(head.plant_share.text) == "Take nothing."


def test_outvoted_caps_are_kept_as_considered(case_with, rulebook):
    sheet = issue(case_with(taxon={"life_form": "annual"}), rulebook, on=DAY)
    assert "take.secure" in [line.rules[0] for line in sheet.considered]
    assert sheet.headline.season_share.rules == ("take.annual", "take.secure")


def test_a_case_may_speak_of_another_season_than_its_day(case_with, rulebook):
    sheet = issue(case_with(season=2031, history={"years_collected": [2030]}), rulebook, on=DAY)
    assert sheet.season == 2031
    assert sheet.status == "not_yet"


def test_a_lowered_share_is_told_once_and_not_beside_the_higher_ones(case_with, rulebook):
    sheet = issue(case_with(crop={"poor_year": True}), rulebook, on=DAY)
    told = " ".join(str(line.text) for line in sheet.sections[Section.COLLECT])
    assert str(sheet.headline.season_share.text).startswith("At most 5%")
    assert "10%" not in told
    assert "take.secure" in [line.rules[0] for line in sheet.considered]


def test_a_share_that_is_no_round_part_is_rounded_to_the_plants_side(case_with, rulebook):
    """3% is a little more than 1 in 34, so a plant with 33 ripe fruits gives none and one with 34 gives 1."""
    head = _head(case_with(sign_off={"by": "The curator", "on": DAY, "share": 0.03}), rulebook)
    assert head.none_below == 34
    assert head.fruit_table[0] == FruitRow(ripe_fruits=34, take_fruits=1, take_seeds=25)


def test_rules_that_say_the_same_share_one_line(case_with, rulebook):
    case = case_with(
        taxon={"care_class": "rare", "storage": "recalcitrant"},
        population={"fruiting_plants": 40, "plants": 40},
    )
    (line,) = [
        line
        for line in issue(case, rulebook, on=DAY).sections[Section.COLLECT]
        if "handling.rare" in line.rules
    ]
    assert set(line.rules) == {"handling.rare", "handling.few-plants", "handling.moist"}
