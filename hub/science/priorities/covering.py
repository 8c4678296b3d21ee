"""Covering problems as whole-number programs, solved with proof, or by the greedy rule when time runs out."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]


@dataclass(frozen=True)
class Problem:
    """What each offer covers and costs, how often each need is wanted and what once is worth.

    Every need is wanted as often as there are offers for it, at the most.
    """

    covers: Mapping[str, Collection[str]]
    times: Mapping[str, int]
    worths: Mapping[str, float]
    costs: Mapping[str, float]

    def covered_by(self, offers: Iterable[str]) -> Counter[str]:
        """How often some offers cover each need."""
        return Counter(need for offer in offers for need in self.covers[offer])

    def worth_of(self, offers: Iterable[str]) -> float:
        """The worth of what some offers cover, none more often than it is wanted."""
        counts = self.covered_by(offers)
        return sum(self.worths[need] * min(counts[need], times) for need, times in self.times.items())

    def cost_of(self, offers: Iterable[str]) -> float:
        """The cost of some offers together."""
        return sum(self.costs[offer] for offer in offers)

    def ordered(self, offers: Collection[str], *, thrift: bool = False) -> list[tuple[str, float]]:
        """The offers that add anything, each time the one that adds most (for its cost, if thrifty).

        With what each adds; of equals, the first by name.
        """
        wanted, left, order = dict(self.times), sorted(offers), []
        while left:
            gains = {offer: self._gain(offer, wanted) for offer in left}
            left = [offer for offer in left if gains[offer] > 0]
            if left:
                best = max(
                    left, key=lambda offer: gains[offer] / (self.costs[offer] or _FREE if thrift else 1)
                )
                order.append((best, gains[best]))
                left.remove(best)
                for need in self.covers[best]:
                    wanted[need] = max(wanted[need] - 1, 0)
        return order

    def _gain(self, offer: str, wanted: Mapping[str, int]) -> float:
        return sum(self.worths[need] for need in self.covers[offer] if wanted[need])

    def matrix(self) -> Any:
        """Needs × offers, 1 where an offer covers a need (sparse)."""
        from scipy.sparse import csr_array

        rows = {need: place for place, need in enumerate(self.times)}
        cells = [(rows[need], column) for column, needs in enumerate(self.covers.values()) for need in needs]
        where = ([row for row, _ in cells], [column for _, column in cells])
        return csr_array(([1.0] * len(cells), where), shape=(len(rows), len(self.covers)))


_FREE = 1e-9
"""A cost to divide by in place of none."""


@dataclass(frozen=True)
class Solution:
    """The offers chosen, what they come to, and the best that could still exist: equal when it is proved."""

    chosen: tuple[str, ...]
    total: float
    bound: float


def most_worth(problem: Problem, most: int, patience_s: float) -> Solution:
    """At most so many offers of the greatest worth together."""
    greedy = [offer for offer, _ in problem.ordered(problem.covers)][:most]
    everything = sum(problem.worths[need] * times for need, times in problem.times.items())
    if problem.worth_of(greedy) >= everything:
        return Solution(tuple(greedy), everything, everything)
    chosen, proved, bound = _greatest(problem, most, patience_s)
    best = max((greedy, chosen), key=problem.worth_of)
    total = problem.worth_of(best)
    return Solution(tuple(best), total, total if proved else max(total, min(-bound, everything)))


def cheapest(problem: Problem, patience_s: float) -> Solution:
    """The offers of the least cost together that cover every need as often as it is wanted."""
    thrifty = [offer for offer, _ in problem.ordered(problem.covers, thrift=True)]
    chosen, proved, bound = _least(problem, patience_s)
    best = min((each for each in (thrifty, chosen) if each or not problem.times), key=problem.cost_of)
    total = problem.cost_of(best)
    return Solution(tuple(best), total, total if proved else min(total, max(bound, 0.0)))


Found = tuple[list[str], bool, float]
"""The offers, whether they are proved best, and the bound of the search (of what it minimises)."""


def _greatest(problem: Problem, most: int, patience_s: float) -> Found:
    """Whole offers x and how often each need is met y ≤ A x: the greatest worth of y with few enough x."""
    import numpy as np
    from scipy.optimize import LinearConstraint
    from scipy.sparse import eye_array, hstack

    offers, needs = len(problem.covers), len(problem.times)
    met = hstack([problem.matrix(), -eye_array(needs)])
    few = np.concatenate([np.ones(offers), np.zeros(needs)])
    worths = np.array([problem.worths[need] for need in problem.times])
    rules = [LinearConstraint(met, 0, np.inf), LinearConstraint(few, 0, most)]
    upper = np.concatenate([np.ones(offers), list(problem.times.values())])
    return _searched(problem, np.concatenate([np.zeros(offers), -worths]), rules, upper, patience_s)


def _least(problem: Problem, patience_s: float) -> Found:
    """Whole offers x that meet all needs, A x ≥ times, at the least cost."""
    import numpy as np
    from scipy.optimize import LinearConstraint

    costs = np.array(list(problem.costs.values()))
    enough = LinearConstraint(problem.matrix(), np.array(list(problem.times.values())), np.inf)
    return _searched(problem, costs, [enough], np.ones(len(costs)), patience_s)


def _searched(problem: Problem, prices: Array, rules: list[Any], upper: Array, patience_s: float) -> Found:
    """HiGHS on whole offers; without an answer in time, none and no bound."""
    import numpy as np
    from scipy.optimize import Bounds, milp

    whole = np.zeros(len(prices))
    whole[: len(problem.covers)] = 1
    options = {"time_limit": patience_s, "mip_rel_gap": 0.0}
    answer = milp(prices, constraints=rules, bounds=Bounds(0, upper), integrality=whole, options=options)
    bound = -np.inf if answer.mip_dual_bound is None else float(answer.mip_dual_bound)
    if answer.x is None:
        return [], False, bound
    taken = answer.x[: len(problem.covers)] > 0.5
    return (
        [offer for offer, is_taken in zip(problem.covers, taken, strict=True) if is_taken],
        answer.status == 0,
        bound,
    )
