"""Care classes: what each rank, category and list asks for, and what wins among several.

The crosswalk is our own default, since none is published; its direction (listed and rare taxa
more strictly) is common practice. It is therefore checked against itself, not against a source.
"""

from __future__ import annotations

from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.science.localities import STEPS_DEG
from hub.taxa.closed_lists import Worded, label
from hub.taxa.ranks import Rank, parse_rank
from hub.taxa.red_list import RedListCategory
from hub.taxa.rules import (
    CareClass,
    FruitType,
    Hazard,
    LegalList,
    LifeForm,
    StorageBehaviour,
    care_class,
    care_of_category,
    care_of_list,
    care_of_rank,
    category_for,
)

ORDER = [CareClass.SECURE, CareClass.WATCH, CareClass.RARE, CareClass.CRITICAL, CareClass.GONE]


def rank(text: str) -> Rank:
    read = parse_rank(text)
    assert read is not None
    return read


NAMING = [kind for kind in LegalList if kind is not LegalList.NOT_LISTED]


def care(*ranks: str, categories: tuple[str, ...] = (), lists: tuple[str, ...] = ()) -> CareClass:
    return care_class(
        [rank(text) for text in ranks],
        [RedListCategory(text) for text in categories],
        [LegalList(text) for text in lists],
    ).care


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("G5", "secure"),
        ("S4", "secure"),
        ("S3", "watch"),
        ("S2", "rare"),
        ("S1", "critical"),
        ("SH", "critical"),
        ("SX", "gone"),
        ("SU", "unknown"),
        ("SNR", "unknown"),
        ("SNA", "unknown"),
        ("HYB", "unknown"),
        ("S2S3", "rare"),
        ("G1G3", "critical"),
        ("G3?Q", "watch"),
        ("S4B,S2N", "rare"),
        ("G5T1", "critical"),
        ("G1G3T3", "watch"),
        ("GNRT5", "secure"),
        ("G5TNR", "unknown"),
        ("G3TU", "unknown"),
        ("G2TNR", "rare"),
        ("G1TNR", "critical"),
    ],
)
def test_a_rank_is_read_most_carefully(text: str, expected: str) -> None:
    assert care_of_rank(rank(text)) == expected


@pytest.mark.parametrize(
    ("expected", "categories"),
    [
        ("gone", "EX EW RE"),
        ("critical", "CR EN"),
        ("rare", "VU"),
        ("watch", "NT"),
        ("secure", "LC"),
        ("unknown", "DD NE NA"),
    ],
)
def test_every_category_has_its_care(expected: str, categories: str) -> None:
    for category in categories.split():
        assert care_of_category(RedListCategory(category)) == expected


def test_every_legal_list_has_its_care() -> None:
    assert [care_of_list(kind).value for kind in NAMING] == ["rare", "critical", "critical"]


def test_the_most_careful_of_all_wins_and_is_named() -> None:
    reading = care_class([rank("G5"), rank("S2")], [RedListCategory.EN], [LegalList.SPECIAL_CONCERN])
    assert reading.care is CareClass.CRITICAL
    assert str(reading.because) == "Its Red List category is EN: critical."


def test_of_equal_readings_the_law_is_named_first_then_the_rank() -> None:
    law = care_class([rank("S1")], [RedListCategory.EN], [LegalList.ENDANGERED])
    assert str(law.because) == "A legal list names it as endangered: critical."
    ranked = care_class([rank("S1")], [RedListCategory.EN], [])
    assert str(ranked.because) == "Its rank is S1: critical."


def test_without_any_input_the_care_is_unknown_and_says_so() -> None:
    reading = care_class([], [], [])
    assert reading.care is CareClass.UNKNOWN
    assert "recorded" in str(reading.because)


@pytest.mark.parametrize(
    ("known", "expected"),
    [("S5", "unknown"), ("S3", "unknown"), ("S2", "rare"), ("S1", "critical"), ("SX", "gone")],
)
def test_what_nobody_has_judged_or_could_tell_weighs_as_much_as_rare(known: str, expected: str) -> None:
    for unjudged in ("GNR", "GNA", "HYB", "GNRTNR", "GU", "G5TU"):
        assert care(unjudged, known) == care(known, unjudged) == expected
    for category in ("NE", "NA", "DD"):
        assert care(known, categories=(category,)) == expected


RANK_TEXTS = (
    "G1",
    "G3",
    "G5",
    "GX",
    "GH",
    "GU",
    "GNR",
    "S1",
    "S2S3",
    "S3",
    "S5",
    "SNA",
    "SU",
    "G5T2",
    "G4TNR",
)


def weighed(care: CareClass) -> int:
    """How careful a class is: what is not known is handled as if it were rare."""
    return ORDER.index(CareClass.RARE if care is CareClass.UNKNOWN else care)


RANKS = st.sampled_from(RANK_TEXTS).map(rank)
CATEGORIES = st.sampled_from(RedListCategory)
LISTS = st.sampled_from(LegalList)  # also the one on which the taxon does not stand


@given(st.lists(RANKS, max_size=4), st.lists(CATEGORIES, max_size=3), st.lists(LISTS, max_size=2))
def test_no_reading_is_ever_more_careful_than_the_verdict(
    ranks: list[Rank], categories: list[RedListCategory], lists: list[LegalList]
) -> None:
    verdict = care_class(ranks, categories, lists).care
    said = [
        *map(care_of_rank, ranks),
        *map(care_of_category, categories),
        *(care_of_list(each) for each in lists if each in NAMING),
    ]
    assert verdict in said or not said
    assert all(weighed(one) <= weighed(verdict) for one in said)


@given(st.lists(RANKS, min_size=1, max_size=4))
def test_the_order_of_ranks_does_not_change_the_verdict(ranks: list[Rank]) -> None:
    assert len({care_class(order, [], []).care for order in permutations(ranks)}) == 1


def test_more_careful_classes_publish_coarser_squares() -> None:
    steps = [STEPS_DEG[category_for(one)] for one in ORDER]
    assert steps == sorted(steps)
    assert category_for(CareClass.UNKNOWN) is category_for(CareClass.RARE)


@pytest.mark.parametrize(
    "closed_list", [CareClass, LifeForm, FruitType, StorageBehaviour, Hazard, LegalList, RedListCategory]
)
def test_members_of_a_closed_list_have_words_of_their_own(closed_list: type[Worded]) -> None:
    words = [str(label(member)) for member in closed_list]
    assert all(words)
    assert len(set(words)) == len(words)
    assert all(closed_list(member.value) is member for member in closed_list)
