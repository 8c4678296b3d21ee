"""Coverage against problems whose best answer is published, and weights against computed figures."""

from itertools import combinations, product

import pytest

from hub.science.priorities.coverage import Need, cover_all
from hub.science.priorities.score import rank_order_weights


def steiner_nine():
    """The twelve lines of the plane of order three: every two of nine points lie on one of them."""
    points = list(product(range(3), repeat=2))
    third = (
        (one, other, tuple(-(a + b) % 3 for a, b in zip(one, other, strict=True)))
        for one, other in combinations(points, 2)
    )
    return points, {frozenset(line) for line in third}


# Published: Fulkerson et al. 1974, the covering of the Steiner triples of nine points takes five.
def test_steiner_triples_of_nine_points():
    points, lines = steiner_nine()
    assert len(lines) == 12
    names = {line: str(sorted(line)) for line in lines}
    offers = {str(point): [names[line] for line in lines if point in line] for point in points}
    found = cover_all(offers, {name: Need() for name in names.values()})
    assert (found.total.value, found.gap) == (5, 0)


# Published, the same series: 27 points take 18. Its 117 triples are the product of that of nine with three.
def test_steiner_triples_of_twenty_seven_points():
    points, lines = steiner_nine()
    triples = {frozenset((point, at) for at in range(3)) for point in points}
    for line in lines:
        triples |= {frozenset((point, at) for point in line) for at in range(3)}
        for order in ((0, 1, 2), (0, 2, 1), (1, 0, 2), (1, 2, 0), (2, 0, 1), (2, 1, 0)):
            triples.add(frozenset(zip(sorted(line), order, strict=True)))
    assert len(triples) == 117
    names = {triple: str(sorted(triple)) for triple in triples}
    everywhere = product(points, range(3))
    offers = {str(place): [names[triple] for triple in triples if place in triple] for place in everywhere}
    found = cover_all(offers, {name: Need() for name in names.values()})
    assert (found.total.value, found.gap) == (18, 0)


# Computed; Barron & Barrett 1996 print them (from memory).
@pytest.mark.parametrize(
    "weights",
    [(0.6111, 0.2778, 0.1111), (0.5208, 0.2708, 0.1458, 0.0625), (0.4567, 0.2567, 0.1567, 0.09, 0.04)],
)
def test_weights_by_rank_order(weights):
    found = rank_order_weights([str(place) for place in range(len(weights))])
    assert list(found.values()) == pytest.approx(weights, abs=5.1e-5)
