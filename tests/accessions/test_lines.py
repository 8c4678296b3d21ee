"""A collection becomes lots: the seeds add up, and no two mothers ever share one."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from hub.accessions.lines import lots_for, shared_out
from hub.accessions.rules import LotKind
from hub.vetting.collection import AfterCare, Bulk, Collection, Container, Handling, Tally
from hub.words import Refused

COLLECTION = Collection(
    collected_on=date(2031, 7, 10),
    people=3,
    latitude=47.7,
    longitude=-28.1,
    uncertainty_m=10,
    handling=Handling.BY_MOTHER,
    total_seeds=300,
    container=Container.PAPER_BAG,
    after_care=AfterCare.HANDED_OVER,
    tallies=(Tally("1", 40, 4, 100), Tally("2", 30, 3, 50), Tally("3", 20, 0)),
)


def test_every_mother_that_gave_seed_has_a_lot_of_her_own() -> None:
    lots = lots_for(COLLECTION)
    assert [(lot.label, lot.mother, lot.seeds) for lot in lots] == [("01", "1", 200), ("02", "2", 100)]
    assert {lot.kind for lot in lots} == {LotKind.MATERNAL_LINE}


def test_mothers_of_one_name_are_kept_apart_all_the_same() -> None:
    tallies = (Tally("1", 40, 4, 100), Tally("1", 30, 3, 50))
    lots = lots_for(replace(COLLECTION, tallies=tallies, total_seeds=150))
    assert [(lot.label, lot.mother, lot.seeds) for lot in lots] == [("01", "1", 100), ("02", "1", 50)]


def test_labels_sort_as_they_count() -> None:
    tallies = tuple(Tally(f"m{at}", 40, 4, 10) for at in range(120))
    labels = [lot.label for lot in lots_for(replace(COLLECTION, tallies=tallies))]
    assert labels == sorted(labels)
    assert labels[99] == "100"


def test_no_mother_no_lots() -> None:
    with pytest.raises(Refused, match="No mother plant gave seed"):
        lots_for(replace(COLLECTION, tallies=(Tally("1", 40, 0),)))


TALLIES = st.lists(
    st.builds(
        Tally, st.text(min_size=1, max_size=4), st.none(), st.integers(0, 50), st.none() | st.integers(0, 500)
    ),
    min_size=1,
    max_size=40,
)


@given(TALLIES, st.integers(1, 10**6))
def test_lines_never_merge_and_no_seed_is_lost(tallies: list[Tally], total: int) -> None:
    gave = [tally.flag for tally in tallies if tally.fruits_taken or tally.seeds]
    assume(gave)
    lots = lots_for(replace(COLLECTION, tallies=tuple(tallies), total_seeds=total))
    assert [lot.mother for lot in lots] == gave
    assert len({lot.label for lot in lots}) == len(lots)
    assert sum(lot.seeds for lot in lots) == total


def test_bulk_seed_is_one_lot() -> None:
    bulk = replace(COLLECTION, handling=Handling.BULK, tallies=(), bulk=Bulk(plants=60))
    assert [(lot.label, lot.kind, lot.seeds) for lot in lots_for(bulk)] == [("B", LotKind.BULK, 300)]


def test_without_seed_counts_the_fruits_decide() -> None:
    tallies = (Tally("a", 40, 4), Tally("b", 40, 1))
    assert [lot.seeds for lot in lots_for(replace(COLLECTION, tallies=tallies))] == [240, 60]


def test_a_mother_whose_seeds_were_not_counted_goes_by_the_others_mean() -> None:
    tallies = (Tally("a", 40, 4, 80), Tally("b", 40, 2))
    assert [lot.seeds for lot in lots_for(replace(COLLECTION, tallies=tallies, total_seeds=120))] == [80, 40]


@given(
    st.integers(0, 10**7),
    st.lists(st.floats(0, 10**6, allow_nan=False, allow_infinity=False), min_size=1, max_size=60),
)
def test_shares_add_up_exactly_and_are_never_negative(total: int, weights: list[float]) -> None:
    shares = shared_out(total, weights)
    assert sum(shares) == total
    assert min(shares) >= 0


@given(st.integers(1, 10**6), st.lists(st.integers(1, 1000), min_size=2, max_size=30))
def test_a_heavier_line_never_gets_less(total: int, weights: list[int]) -> None:
    shares = shared_out(total, weights)
    for first, second in zip(
        sorted(zip(weights, shares, strict=True)), sorted(zip(weights, shares, strict=True))[1:], strict=False
    ):
        assert first[0] == second[0] or first[1] <= second[1]
