"""How much a species matters: a weighted score that shows its parts, and what is not known of it."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from hub.science.priorities.sources import SCORE
from hub.science.quantity import Estimate, Unit, within
from hub.words import Refused, say

Known = Mapping[str, float | None]
"""What is known of a species by criterion, from 0 (no matter) to 1 (matters most); None for unknown."""

MOST_CRITERIA = 20

THREAT = {"CR": 1.0, "EN": 0.8, "VU": 0.6, "NT": 0.4, "LC": 0.0}
"""Red List categories as shares (our own proposal)."""

UNJUDGED = ("DD", "NE")
"""Data deficient and not evaluated: nothing is known, which is neither safe nor threatened."""


@dataclass(frozen=True)
class Score:
    """Points from 0 to 1, what each known criterion adds to their lower end, and what is missing.

    The interval reaches from the score with every unknown at 0 to that with every unknown at 1.
    """

    total: Estimate
    parts: Mapping[str, float]
    missing: tuple[str, ...]


def priority_score(known: Known, weights: Mapping[str, float]) -> Score:
    """The weighted mean of what is known of a species, each criterion and weight as in ``checked_weights``.

    Raises ``Refused`` for a criterion without a weight and for a species of which nothing is known.
    """
    shares = checked_weights(weights)
    values = checked_known(known, shares)
    weight_known = math.fsum(shares[name] for name in values)
    if weight_known == 0:
        raise Refused(say("Nothing that counts is known of this species, so it has no score."))
    parts = {name: shares[name] * value for name, value in values.items()}
    low = math.fsum(parts.values())
    value = min(low / weight_known, 1.0)
    high = max(low + max(1 - weight_known, 0.0), value)
    total = Estimate(value, Unit.POINTS, min(low, value), high, 1.0, SCORE)
    return Score(total, parts, tuple(name for name in shares if name not in values))


def checked_weights(weights: Mapping[str, float]) -> dict[str, float]:
    """Weights (0 to 1,000, one to twenty of them) by criterion, made to add up to 1."""
    within(len(weights), say("The number of criteria"), Unit.VALUES, 1, MOST_CRITERIA)
    for weight in weights.values():
        within(weight, say("The weight of a criterion"), Unit.NUMBER, 0, 1000)
    total = math.fsum(weights.values())
    within(total, say("The sum of the weights"), Unit.NUMBER, 1e-6, 1000 * MOST_CRITERIA)
    return {name: weight / total for name, weight in weights.items()}


def checked_known(known: Known, weights: Mapping[str, float]) -> dict[str, float]:
    """What is known of a species, without the unknown; ``Refused`` for a criterion without a weight."""
    for name in known:
        if name not in weights:
            raise Refused(say("The criterion {name} has no weight.", name=name))
    return {
        name: within(value, say("The value of a criterion"), Unit.SHARE, 0, 1)
        for name, value in known.items()
        if value is not None
    }


def rank_order_weights(criteria: Sequence[str]) -> dict[str, float]:
    """Weights for one to twenty criteria named from the weightiest to the least, adding up to 1.

    The k-th of n weighs the mean of 1/k, …, 1/n and 0 for those before it: the centroid of all weights
    in that order. Source: ``sources.CENTROID``.
    """
    n = within(len(criteria), say("The number of criteria"), Unit.VALUES, 1, MOST_CRITERIA)
    if len(set(criteria)) < n:
        raise Refused(say("Each criterion can be named only once."))
    return {name: math.fsum(1 / i for i in range(place, n + 1)) / n for place, name in enumerate(criteria, 1)}


def rarity_from_rank(rank: float) -> float:
    """A conservation rank from 1 (most at risk; 1.5 for a range of ranks) to 5 as a share: (5 - rank) / 4."""
    return (5 - within(rank, say("The conservation rank"), Unit.NUMBER, 1, 5)) / 4


def threat_from_category(category: str) -> float | None:
    """A Red List category (CR, EN, VU, NT, LC) as a share; None for DD and NE; ``Refused`` for others."""
    if category in UNJUDGED:
        return None
    if category not in THREAT:
        raise Refused(say("The category must be one of {codes}.", codes=", ".join((*THREAT, *UNJUDGED))))
    return THREAT[category]


def gap_from_conserved(final_score: float) -> float:
    """The lack that is left of a final representativeness score of 0 to 100, as a share."""
    return 1 - within(final_score, say("The score of what is conserved"), Unit.PERCENT, 0, 100) / 100
