"""Rarity ranks: the grammar of the codes, the refusals, and rounding.

The codes are those of the public G, N and S ranks (Master et al. 2012; Faber-Langendoen et al.
2012). Captivity marks, the comparison of T with G and rounding are from memory.
"""

from __future__ import annotations

import string

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.taxa.ranks import Rank, RankKind, RankUnreadable, parse_rank

SCALE = "XH12345"


def read(text: str) -> Rank:
    rank = parse_rank(text)
    assert rank is not None
    return rank


@pytest.mark.parametrize("text", ["", "   ", "\t"])
def test_nothing_given_is_no_rank_and_no_error(text: str) -> None:
    assert parse_rank(text) is None


@pytest.mark.parametrize(
    ("text", "kind", "rounded"),
    [
        ("G1", RankKind.NUMERIC, "G1"),
        ("S2S3", RankKind.RANGE, "S2"),
        ("G1G3", RankKind.RANGE, "G2"),
        ("G3G5", RankKind.RANGE, "G4"),
        ("GHG1", RankKind.RANGE, "GH"),
        ("GHG2", RankKind.RANGE, "GH"),
        ("SXSH", RankKind.RANGE, "SX"),
        ("NH", RankKind.HISTORICAL, "NH"),
        ("NX", RankKind.EXTINCT, "NX"),
        ("NU", RankKind.UNRANKABLE, "NU"),
        ("NNR", RankKind.NOT_RANKED, "NNR"),
        ("NNA", RankKind.NOT_APPLICABLE, "NNA"),
        ("G5T1T3", RankKind.NUMERIC, "T2"),
        ("S2B,S4N", RankKind.SEASONAL, "S2B;S4N"),
        ("HYB", RankKind.HYBRID, ""),
    ],
)
def test_kind_and_rounded_form(text: str, kind: RankKind, rounded: str) -> None:
    rank = read(text)
    assert (rank.kind, rank.rounded, rank.warnings) == (kind, rounded, rank.warnings)
    assert bool(rank.warnings) == (kind is RankKind.SEASONAL)


def test_marks_are_kept_where_they_stand() -> None:
    rank = read("G3?CQT2?Q")
    species, infraspecific = rank.every_part
    assert (species.inexact, species.captive, species.questionable) == (True, True, True)
    assert (infraspecific.inexact, infraspecific.captive, infraspecific.questionable) == (True, False, True)


def test_the_question_mark_may_stand_behind_the_captivity_mark() -> None:
    assert read("G3C?").parts == read("G3?C").parts


def test_a_letter_n_behind_an_s_rank_is_a_season() -> None:
    rank = read("S4N")
    assert (rank.scope, rank.parts[0].season, rank.rounded) == ("S", "N", "S4")


@pytest.mark.parametrize(
    ("text", "reads_as", "warning"),
    [
        ("g2 t1", "G2T1", "Read as G2T1"),
        ("S?", "SNR", "older way"),
        ("G2G3?", "G2G3", "single number"),
        ("GH?", "GH", "single number"),
        ("S2B", "S2B", "Season letters"),
        ("G3T2T4", "G3T2T4", "reaches beyond"),
    ],
)
def test_what_is_set_right_is_told(text: str, reads_as: str, warning: str) -> None:
    rank = read(text)
    assert str(rank) == reads_as
    assert warning in str(rank.warnings[0])


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("A2", "starts with G, N or S"),
        ("G", "needs a level"),
        ("GG2", "needs a level"),
        ("G?G3", "“G3” does not belong"),
        ("G1G4", "skip more than one"),
        ("G2G2", "from the rarer"),
        ("G3G2", "from the rarer"),
        ("GUG3", "from the rarer"),
        ("S1C", "global ranks only"),
        ("S2Q", "global ranks only"),
        ("G2B", "“B” does not belong"),
        ("S1.1", "“.1” does not belong"),
        ("G2G3S1", "“S1” does not belong"),
        ("G3T2T2T2", "from the rarer"),
        ("G3T2X", "“X” does not belong"),
        ("S1,S2", "season letter"),
        ("S1B,N2N", "“N2N” does not belong"),
        ("S1B,", "“” does not belong"),
        ("G1T2", "commoner than"),
        ("GXT1", "commoner than"),
    ],
)
def test_refusals_say_what_is_wrong(text: str, reason: str) -> None:
    with pytest.raises(RankUnreadable, match=reason.replace(".", r"\.")) as refused:
        parse_rank(text)
    assert reason in str(refused.value.words)


@given(st.sampled_from("GNS"), st.sampled_from(SCALE), st.sampled_from(SCALE))
def test_a_range_is_read_exactly_when_it_climbs_by_one_or_two(letter: str, rarer: str, commoner: str) -> None:
    climbs = SCALE.index(commoner) - SCALE.index(rarer) in (1, 2)
    text = f"{letter}{rarer}{letter}{commoner}"
    if climbs:
        assert str(read(text)) == text
    else:
        with pytest.raises(RankUnreadable):
            parse_rank(text)


@given(
    st.text(alphabet="GNSTXHURAQCBNM?12345, ", max_size=12) | st.text(alphabet=string.printable, max_size=8)
)
def test_any_text_is_read_or_refused_and_what_is_read_reads_the_same_again(text: str) -> None:
    try:
        rank = parse_rank(text)
    except RankUnreadable:
        return
    if rank is None:
        return
    again = read(str(rank))
    assert (again.scope, again.parts, again.infraspecific) == (rank.scope, rank.parts, rank.infraspecific)
