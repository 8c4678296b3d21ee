"""When something came that is only looked for now and then: after one look without it, by one look with it.

Each time lies in a half-open interval (last look without, first look with]. Looks that follow each other
share an end and no time: estimators that take both ends as included go wrong on exactly that.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from itertools import accumulate, pairwise
from typing import NamedTuple

from hub.science.phenology.sources import TURNBULL
from hub.science.quantity import Estimate, Unit, within
from hub.words import Refused, say

MOST_PLANTS = 10_000
LONGEST_DAYS = 4000.0
STEADY = 1e-10
MOST_ROUNDS = 5_000
MOST_PAIRS = 400
"""Of different looks: plants that are visited together share theirs."""


class Seen(NamedTuple):
    """Days of the last look without and the first look with; no end where it was never seen."""

    without: float
    with_it: float | None


class Distribution(NamedTuple):
    """The share of all that had come by each of some days, in order; ``days`` ends the intervals."""

    days: tuple[float, ...]
    shares: tuple[float, ...]

    def by(self, day: float) -> float:
        """The share that had surely come by a day, 0 to 1."""
        return max(
            (share for at, share in zip(self.days, self.shares, strict=True) if at <= day), default=0.0
        )


def came_by(seen: Sequence[Seen]) -> Distribution:
    """The likeliest distribution (Turnbull’s) of one to 10,000 times, each known to lie between two looks.

    What was never seen counts to no day; its share is missing at the end.
    """
    _checked(seen)
    like = Counter(seen)
    within(len(like), say("The number of different pairs of looks"), Unit.VALUES, 1, MOST_PAIRS)
    cuts = sorted({end for one in like for end in (one.without, _end(one))})
    cells = list(pairwise(cuts))
    holds = [[one.without <= start and end <= _end(one) for start, end in cells] for one in like]
    weights = _settled(holds, [times / len(seen) for times in like.values()])
    finite = [(end, weight) for (_, end), weight in zip(cells, weights, strict=True) if end < math.inf]
    days = tuple(end for end, _ in finite)
    return Distribution(days, tuple(min(share, 1.0) for share in accumulate(weight for _, weight in finite)))


def _settled(holds: Sequence[Sequence[bool]], shares: Sequence[float]) -> list[float]:
    """The weights of the cells: each time is spread over its own cells by their weights, again and again."""
    import numpy as np

    own, share = np.array(holds, dtype=float), np.array(shares)
    weights = np.full(own.shape[1], 1.0 / own.shape[1])
    rounds, change = 0, math.inf
    while change >= STEADY and rounds < MOST_ROUNDS:
        before, rounds = weights, rounds + 1
        weights = weights * (own.T @ (share / (own @ weights)))
        change = float(np.abs(weights - before).max())
    settled: list[float] = weights.tolist()
    return settled


def middle_day(seen: Sequence[Seen]) -> Estimate:
    """The day by which half of those watched had come, between the looks around it.

    The ends are those looks and no sampling interval. ``Refused`` where fewer than half ever came.
    """
    found = came_by(seen)
    reached = [day for day, share in zip(found.days, found.shares, strict=True) if share >= 0.5 - STEADY]
    if not reached:
        raise Refused(say("Fewer than half were ever seen, so there is no middle day."))
    earlier = [day for day, share in zip(found.days, found.shares, strict=True) if share < 0.5 - STEADY]
    start = max(earlier, default=min(one.without for one in seen))
    watched_only = say("These are the looks around it. Other plants of the place may differ.")
    return Estimate((start + reached[0]) / 2, Unit.DAYS, start, reached[0], 1.0, TURNBULL, (watched_only,))


def _end(one: Seen) -> float:
    return math.inf if one.with_it is None else one.with_it


def _checked(seen: Sequence[Seen]) -> None:
    within(len(seen), say("The number watched"), Unit.PLANTS, 1, MOST_PLANTS)
    for one in seen:
        last = within(one.without, say("The last look without"), Unit.DAYS, 0, LONGEST_DAYS)
        if one.with_it is not None:
            within(one.with_it, say("The first look with"), Unit.DAYS, 0, LONGEST_DAYS)
            if one.with_it <= last:
                raise Refused(say("The first look with comes after the last look without."))
