"""Where each line of a sheet stands, what the papers say, and what changed between two sheets."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hub.protocols.differences import differences
from hub.protocols.engine import issue
from hub.protocols.laid_out import Version, papers, reasons, sections
from hub.protocols.rule_words import sentence
from hub.protocols.rulebook_reader import standard_rulebook
from hub.protocols.sheet_words import span
from tests.protocols.conftest import DAY, changed
from tests.protocols.printed import CASES, sheet_of

EVERY = sorted(CASES)


@pytest.mark.parametrize("name", EVERY)
def test_every_line_stands_large_or_in_its_part(name):
    sheet = sheet_of(name)
    shown = {item.line.rules for _, items in sections(sheet, Version.FULL) for item in items}
    large = {line.rules[0] for _, line in sheet.headline.lines()}
    for lines in sheet.sections.values():
        assert all(line.rules in shown or line.rules[0] in large for line in lines)


@pytest.mark.parametrize("name", EVERY)
def test_reasons_cite_only_listed_sources_and_all_of_them(name):
    why, sources = reasons(sheet_of(name), Version.FULL)
    cited = {n for reason in why for n in reason.sources}
    assert cited == set(range(1, len(sources) + 1))


def test_the_papers_are_told_with_their_terms():
    case = changed({
        "permission": {"granted": True, "until": date(2030, 9, 30), "conditions": ["Close the gate."]},
        "permits": [{"authority": "Vale Council", "number": "P 7", "cap_seeds": 900,
                     "until": date(2030, 10, 1), "conditions": ["Report by winter."]}],
    })  # fmt: skip
    told = [str(each) for each in papers(issue(case, standard_rulebook(), on=DAY))]
    assert told == [
        "The owner’s permission holds until 2030-09-30.",
        "The owner asks: Close the gate.",
        "Permit P 7 of Vale Council.",
        "The permit holds until 2030-10-01.",
        "The permit allows 900 seeds in all, every group together.",
        "The permit asks: Report by winter.",
    ]


@pytest.mark.parametrize(("n", "words"), [(24, "24 hours"), (48, "2 days"), (72, "3 days"), (30, "30 hours"),
                                          (168, "7 days"), (50, "50 hours")])  # fmt: skip
def test_spans_are_told_in_hours_or_whole_days(n, words):
    assert str(span(n)) == words


@given(st.sampled_from(EVERY))
def test_equal_sheets_differ_in_nothing(name):
    assert differences(sheet_of(name), replace(sheet_of(name), on=date(2030, 12, 1))) == ()


@settings(max_examples=30, deadline=None)
@given(st.sampled_from(EVERY), st.sampled_from(EVERY))
def test_different_sheets_differ_in_words(one, other):
    told = differences(sheet_of(one), sheet_of(other))
    assert all(str(each) for each in told)
    if one != other and {one, other} != {"bulk", "school"}:
        assert told


def test_a_difference_is_told_as_a_reader_knows_it():
    fewer = issue(changed({"population": {"fruiting_plants": 40, "plants": 40}}), standard_rulebook(), on=DAY)
    told = [str(each) for each in differences(sheet_of("bulk"), fewer)]
    assert "How to collect: In bulk before, By mother now." in told
    assert "Mother plants to aim at: 50 before, 24 now." in told


def test_no_rule_is_shown_with_a_name_in_braces():
    for rule in standard_rulebook().rules:
        for text in (rule.says, rule.plain):
            assert "{" not in str(sentence(rule, text))
