"""Red List assessments: categories, criteria and the refusals.

Categories follow the IUCN Red List Categories and Criteria, version 3.1 (2012); which
subcriteria may stand together is from memory.
"""

from __future__ import annotations

import string

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.taxa.closed_lists import label
from hub.taxa.red_list import Assessment, AssessmentUnreadable, RedListCategory, parse_assessment


@pytest.mark.parametrize("text", ["", "  "])
def test_nothing_given_is_no_assessment(text: str) -> None:
    assert parse_assessment(text) is None


@pytest.mark.parametrize("category", list(RedListCategory))
def test_every_category_stands_alone_and_has_words(category: RedListCategory) -> None:
    assert parse_assessment(category.value) == Assessment(category)
    assert str(label(category))


@pytest.mark.parametrize(
    ("text", "criteria"),
    [
        ("CR A2acd; C2a(i)", ("A2acd", "C2a(i)")),
        ("EN B2ab(ii,iii,v)", ("B2ab(ii,iii,v)",)),
        ("VU D1+2", ("D1+2",)),
        ("VU D2", ("D2",)),
        ("CR D", ("D",)),
        ("VU B1ab(iii)+2ab(iii); D2", ("B1ab(iii)+2ab(iii)", "D2")),
        ("EN A2c+3c; B1ac(iv); C1+2a(i,ii)b; D; E", ("A2c+3c", "B1ac(iv)", "C1+2a(i,ii)b", "D", "E")),
        ("EN B1b(i)c(ii)", ("B1b(i)c(ii)",)),
        ("EN C2b", ("C2b",)),
    ],
)
def test_criteria_are_kept_one_per_letter(text: str, criteria: tuple[str, ...]) -> None:
    read = parse_assessment(text)
    assert read is not None
    assert read.criteria == criteria
    assert str(read) == text


def test_spaces_inside_a_criterion_do_not_matter() -> None:
    assert parse_assessment(" EN   B2ab(ii, iii ,v) ") == parse_assessment("EN B2ab(ii,iii,v)")


@pytest.mark.parametrize(("text", "tag"), [("CR(PE)", "PE"), ("CR(PEW) D", "PEW"), ("CR (PE)", "PE")])
def test_possibly_extinct_is_a_tag_on_critically_endangered(text: str, tag: str) -> None:
    read = parse_assessment(text)
    assert read is not None
    assert (read.category, read.tag) == (RedListCategory.CR, tag)
    assert f"CR({tag})" in str(read)


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("XX", "Start with a Red List category"),
        ("vu", "Start with a Red List category"),
        ("ENB2ab(iii)", "Start with a Red List category"),
        ("EN(PE)", "Only CR"),
        ("LC A2c", "CR, EN and VU only"),
        ("EN D1", "not a criterion for EN"),
        ("VU D", "not a criterion for VU"),
        ("EN B2a", "not a criterion for EN"),
        ("EN B2ab(vi)", "not a criterion for EN"),
        ("EN A5c", "not a criterion for EN"),
        ("EN A2c;", "not a criterion for EN"),
        ("EN F1", "not a criterion for EN"),
        ("EN C1; A2c", "in the order A to E"),
        ("EN C1; C2b", "Give each criterion once"),
    ],
)
def test_refusals_say_what_is_wrong(text: str, reason: str) -> None:
    with pytest.raises(AssessmentUnreadable) as refused:
        parse_assessment(text)
    assert reason in str(refused.value.words)


@given(st.text(alphabet="CREVUNTLDAB12345abciv()+;, ", max_size=20) | st.text(string.printable, max_size=12))
def test_any_text_is_read_or_refused_and_what_is_read_reads_the_same_again(text: str) -> None:
    try:
        read = parse_assessment(text)
    except AssessmentUnreadable:
        return
    assert read is None or parse_assessment(str(read)) == read
