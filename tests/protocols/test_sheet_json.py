"""A frozen sheet is plain JSON and reads back the same."""

from __future__ import annotations

import json
from datetime import date

import pytest

from hub.protocols.engine import issue
from hub.protocols.overrides import Override
from hub.protocols.sheet import Section, Sheet
from hub.words import Refused, Words
from tests.protocols.conftest import DAY


@pytest.mark.parametrize(
    "change",
    [{}, {"taxon": {"care_class": "gone"}}, {"crop": {"good_seeds_per_fruit": "unknown"}}],
    ids=["ready", "stop", "not yet"],
)
def test_written_and_read_back_it_is_equal(change, case_with, rulebook):
    override = Override("take.secure", "season_share", 0.3, "C", DAY, "R", date(2031, 1, 1))
    sheet = issue(case_with(**change), rulebook, [override], on=DAY)
    assert Sheet.from_json(json.loads(json.dumps(sheet.as_json()))) == sheet


def test_it_holds_its_inputs_and_the_state_of_the_rules(case_with, rulebook):
    sheet = issue(case_with(), rulebook, on=DAY)
    assert sheet.case["population"]["fruiting_plants"] == 400
    assert sheet.rulebook == rulebook.digest


def test_sections_come_in_reading_order(case_with, rulebook):
    sheet = issue(case_with(), rulebook, on=DAY)
    assert list(sheet.sections) == list(Section)
    assert all(sheet.sections.values())


def test_a_stopped_sheet_holds_no_instructions_to_collect(case_with, rulebook):
    sheet = issue(case_with(taxon={"care_class": "gone"}), rulebook, on=DAY)
    assert set(sheet.sections) == {Section.CAUTIONS, Section.PAPERWORK}


def test_words_keep_their_message_and_values_apart(case_with, rulebook):
    """So that a sheet frozen in one language can be read in another."""
    line = issue(case_with(), rulebook, on=DAY).headline.left_seeds
    assert line.text == Words(
        "Your group may take at most {n} seed.", {"n": 12000}, "Your group may take at most {n} seeds."
    )


def test_a_day_before_the_rules_began_has_no_sheet(case_with, rulebook):
    with pytest.raises(Refused):
        issue(case_with(), rulebook, on=date(2019, 12, 31))


def test_what_to_ask_names_first_what_is_needed(case_with, rulebook):
    case = case_with(taxon={"clonal": "unknown"}, crop={"good_seeds_per_fruit": "unknown"})
    asks = issue(case, rulebook, on=DAY).asks
    assert [(ask.fact, ask.needed) for ask in asks] == [("good_seeds_per_fruit", True), ("clonal", False)]
