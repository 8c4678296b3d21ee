"""What to offer next: proved best on small problems, honest about the gap where time runs out."""

from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hub.science.priorities.coverage import Need, cover_all, offer_next
from hub.science.quantity import OutOfRange

GREEDY_TRAP = {"A": "1234", "B": "125", "C": "346"}
SIX = {each: Need() for each in "123456"}
NAMES = st.sampled_from("abcdef")
OFFERS = st.dictionaries(st.sampled_from("ABCDEF"), st.sets(NAMES, max_size=4), min_size=1, max_size=6)
NEEDS = st.dictionaries(
    NAMES, st.builds(Need, st.sampled_from([0.5, 1.0, 3.0]), st.integers(1, 2)), min_size=1, max_size=6
)


def worth(offers, needs, chosen):
    counts = {name: sum(name in offers[offer] for offer in chosen) for name in needs}
    return sum(need.worth * min(counts[name], need.times) for name, need in needs.items())


def test_the_best_pair_is_not_the_greedy_one():
    found = offer_next(GREEDY_TRAP, SIX, most=2)
    assert sorted(step.offer for step in found.steps) == ["B", "C"]
    assert (found.total.value, found.gap, dict(found.left), dict(found.beyond)) == (6, 0, {}, {})


def test_the_greedy_one_is_given_with_its_gap_when_there_is_no_time():
    found = offer_next(GREEDY_TRAP, SIX, most=2, patience_s=0)
    assert found.total.value == 5
    assert found.gap == pytest.approx(0.2)
    assert "time ran out" in str(found.total.warnings[0])


@settings(max_examples=40)
@given(OFFERS, NEEDS, st.integers(1, 4))
def test_nothing_better_exists(offers, needs, most):
    found = offer_next(offers, needs, most=most)
    best = max(
        worth(offers, needs, chosen)
        for size in range(min(most, len(offers)) + 1)
        for chosen in combinations(offers, size)
    )
    assert found.total.value == pytest.approx(best) == pytest.approx(sum(step.adds for step in found.steps))
    assert len(found.steps) <= most
    assert found.gap == 0


@settings(max_examples=40)
@given(OFFERS, NEEDS, st.lists(st.sampled_from([0.0, 1.0, 2.5]), min_size=6, max_size=6))
def test_nothing_cheaper_covers_as_much(offers, needs, prices):
    costs = dict(zip("ABCDEF", prices, strict=True))
    found = cover_all(offers, needs, costs={name: costs[name] for name in offers})
    everything = worth(offers, needs, offers)
    cheapest = min(
        sum(costs[offer] for offer in chosen)
        for size in range(len(offers) + 1)
        for chosen in combinations(offers, size)
        if worth(offers, needs, chosen) == pytest.approx(everything)
    )
    assert found.total.value == pytest.approx(cheapest)
    assert not found.left


def test_the_order_of_the_input_changes_nothing():
    turned = dict(reversed(GREEDY_TRAP.items()))
    assert offer_next(turned, dict(reversed(SIX.items())), most=2) == offer_next(GREEDY_TRAP, SIX, most=2)


def test_what_no_offer_covers_is_told():
    found = cover_all({"A": ["x"]}, {"x": Need(times=3), "y": Need()})
    assert dict(found.beyond) == {"x": 2, "y": 1}
    assert offer_next({"A": []}, {"y": Need()}, most=1).total.value == 0


def test_without_time_the_thrifty_cover_stands_with_its_gap():
    found = cover_all(GREEDY_TRAP, SIX, patience_s=0)
    assert found.total.value >= 2
    assert found.total.low <= 2
    assert not found.left


@pytest.mark.parametrize(
    "ask",
    [
        lambda: offer_next({}, SIX, most=1),
        lambda: offer_next(GREEDY_TRAP, {}, most=1),
        lambda: offer_next(GREEDY_TRAP, SIX, most=0),
        lambda: offer_next(GREEDY_TRAP, SIX, most=1, patience_s=-1),
        lambda: cover_all(GREEDY_TRAP, SIX, costs={"A": -1.0}),
        lambda: Need(worth=0),
        lambda: Need(times=0),
    ],
)
def test_beyond_the_limits_it_refuses(ask):
    with pytest.raises(OutOfRange):
        ask()
