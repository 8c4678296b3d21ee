"""Scores show their parts; ranks say how far they hang on the weights."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.science.priorities.ranking import rank_species
from hub.science.priorities.score import (
    gap_from_conserved,
    priority_score,
    rank_order_weights,
    rarity_from_rank,
    threat_from_category,
)
from hub.science.quantity import OutOfRange
from hub.words import Refused

WEIGHTS = {"threat": 2.0, "rarity": 1.0, "gap": 1.0}
SHARE = st.floats(0, 1)
KNOWN = st.fixed_dictionaries({}, optional={name: st.none() | SHARE for name in WEIGHTS}).filter(
    lambda known: any(value is not None for value in known.values())
)


@given(KNOWN)
def test_a_score_lies_between_all_unknown_at_nothing_and_at_one(known):
    found = priority_score(known, WEIGHTS)
    assert 0 <= found.total.low <= found.total.value <= found.total.high <= 1 + 1e-12
    assert found.total.low == pytest.approx(math.fsum(found.parts.values()))
    assert set(found.missing) == {name for name in WEIGHTS if known.get(name) is None}


@given(KNOWN, SHARE)
def test_what_matters_more_never_lowers_it(known, more):
    raised = {name: None if value is None else max(value, more) for name, value in known.items()}
    assert priority_score(raised, WEIGHTS).total.value >= priority_score(known, WEIGHTS).total.value - 1e-12


def test_a_whole_score_is_the_weighted_mean():
    found = priority_score({"threat": 1.0, "rarity": 0.5, "gap": 0.0}, WEIGHTS)
    assert found.total.value == found.total.low == found.total.high == 0.625
    assert found.parts == {"threat": 0.5, "rarity": 0.125, "gap": 0.0}


@pytest.mark.parametrize(
    ("known", "weights", "words"),
    [
        ({"colour": 1.0}, WEIGHTS, "has no weight"),
        ({"threat": None}, WEIGHTS, "Nothing that counts"),
        ({"threat": 1.0}, {"threat": 0.0, "rarity": 1.0}, "Nothing that counts"),
        ({"threat": 1.5}, WEIGHTS, "from 0 to 1"),
        ({"threat": math.nan}, WEIGHTS, "from 0 to 1"),
        ({}, {}, "number of criteria"),
        ({"threat": 1.0}, {"threat": -1.0}, "weight of a criterion"),
        ({"threat": 1.0}, {"threat": 0.0}, "sum of the weights"),
    ],
)
def test_what_cannot_be_scored_is_refused(known, weights, words):
    with pytest.raises(Refused, match=words):
        priority_score(known, weights)


@given(st.integers(1, 20))
def test_weights_by_order_fall_and_add_up(number):
    weights = list(rank_order_weights([str(each) for each in range(number)]).values())
    assert weights == sorted(weights, reverse=True)
    assert math.fsum(weights) == pytest.approx(1)


def test_a_criterion_is_named_once():
    with pytest.raises(Refused, match="only once"):
        rank_order_weights(["threat", "threat"])


def test_ranks_categories_and_gaps_become_shares():
    assert [rarity_from_rank(rank) for rank in (1, 1.5, 3, 5)] == [1, 0.875, 0.5, 0]
    assert [threat_from_category(code) for code in ("CR", "VU", "LC", "DD", "NE")] == [1, 0.6, 0, None, None]
    assert gap_from_conserved(25) == 0.75
    with pytest.raises(Refused, match="one of CR, EN"):
        threat_from_category("XX")
    with pytest.raises(OutOfRange):
        rarity_from_rank(6)


SPECIES = {
    "Arnica": {"threat": 1.0, "rarity": 0.2, "gap": 0.5},
    "Betonica": {"threat": 0.4, "rarity": 0.9, "gap": 0.5},
    "Calluna": {"threat": 0.0, "rarity": 0.0, "gap": 0.1},
    "Drosera": {},
}


def test_species_stand_in_order_with_their_spread():
    found = rank_species(SPECIES, WEIGHTS)
    assert [(each.species, each.rank) for each in found.standings] == [
        ("Arnica", 1),
        ("Betonica", 2),
        ("Calluna", 3),
    ]
    assert [(each.best, each.worst) for each in found.standings] == [(1, 2), (1, 2), (3, 3)]
    assert found.unknown == ("Drosera",)


def test_each_change_of_weight_tells_how_far_the_order_holds():
    found = rank_species(SPECIES, WEIGHTS)
    assert len(found.changes) == 2 * len(WEIGHTS)
    agreements = {(each.criterion, each.factor): each.agreement for each in found.changes}
    assert agreements["threat", 2.0] == 1
    assert agreements["rarity", 2.0] < 1


def test_equals_share_the_better_rank_and_stand_by_name():
    found = rank_species({"Zea": {"threat": 0.5}, "Abies": {"threat": 0.5}, "Ilex": {"threat": 0.1}}, WEIGHTS)
    assert [(each.species, each.rank) for each in found.standings] == [("Abies", 1), ("Zea", 1), ("Ilex", 3)]


@given(st.dictionaries(st.text(min_size=1, max_size=3), KNOWN, min_size=1, max_size=8))
def test_a_rank_lies_between_its_best_and_worst(species):
    for each in rank_species(species, WEIGHTS).standings:
        assert 1 <= each.best <= each.rank <= each.worst <= len(species)
        assert each.score == pytest.approx(priority_score(species[each.species], WEIGHTS).total.value)


def test_without_any_knowledge_there_is_no_order():
    with pytest.raises(Refused, match="any of these species"):
        rank_species({"Arnica": {}}, WEIGHTS)
