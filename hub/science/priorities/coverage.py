"""What to offer next: which few offers cover the most of what is needed, or all of it at the least cost."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from hub.science.priorities.covering import Problem, Solution, cheapest, most_worth
from hub.science.priorities.sources import COVERING, SET_COVER
from hub.science.quantity import MOST, Estimate, Source, Unit, within
from hub.words import Words, say

Offers = Mapping[str, Collection[str]]
"""What each offer (a population, a species, a place) would cover, by name."""

MOST_OFFERS = 20_000
MOST_NEEDS = 20_000

PATIENCE_S = 30.0
"""How long the proof of the best may take before the best found is given with its gap (our own default)."""


@dataclass(frozen=True)
class Need:
    """What covering it once is worth (0.001 to 1,000), and how many times it is wanted (1 or more)."""

    worth: float = 1.0
    times: int = 1

    def __post_init__(self) -> None:
        """Refuse what no need can be, NaN included."""
        within(self.worth, say("The worth of a need"), Unit.NUMBER, 0.001, 1000)
        within(self.times, say("The times that something is needed"), Unit.TIMES, 1, 1000)


@dataclass(frozen=True)
class Step:
    """One offer, and the worth of what it covers beyond the offers before it."""

    offer: str
    adds: float


@dataclass(frozen=True)
class Plan:
    """The offers, the most useful first; their worth or cost; how often each need is left; the gap.

    The interval of ``total`` reaches to the best that could still exist, and ``gap`` is that distance as
    a share of the total: 0 when the plan is proved best. ``beyond`` counts what no offer could cover.
    """

    steps: tuple[Step, ...]
    total: Estimate
    left: Mapping[str, int]
    beyond: Mapping[str, int]
    gap: float


def offer_next(
    offers: Offers, needs: Mapping[str, Need], *, most: int, patience_s: float = PATIENCE_S
) -> Plan:
    """The offers, ``most`` (1 or more) of them at the most, that together cover needs of the greatest worth.

    Solved exactly, up to 20,000 offers and needs; of plans equally good always the same one is given,
    whatever the order of the input. ``patience_s`` runs from 0 to 600 seconds.
    """
    count = within(most, say("The number of offers"), Unit.VALUES, 1, MOST_OFFERS)
    problem = _problem(offers, needs, {})
    solution = most_worth(problem, count, _checked_patience(patience_s))
    total = _total(solution.total, solution.bound, COVERING)
    return _plan(problem, solution, total, needs)


def cover_all(
    offers: Offers,
    needs: Mapping[str, Need],
    *,
    costs: Mapping[str, float] | None = None,
    patience_s: float = PATIENCE_S,
) -> Plan:
    """The cheapest offers that cover every need as often as it is wanted, or as often as offers allow.

    ``costs`` (0 to 1,000,000,000) are by offer, 1 for those not named. Otherwise as ``offer_next``.
    """
    problem = _problem(offers, needs, costs or {})
    solution = cheapest(problem, _checked_patience(patience_s))
    total = _total(solution.total, solution.bound, SET_COVER)
    return _plan(problem, solution, total, needs)


def _problem(offers: Offers, needs: Mapping[str, Need], costs: Mapping[str, float]) -> Problem:
    """The needs that some offer covers, all in the order of their names."""
    within(len(offers), say("The number of offers"), Unit.VALUES, 1, MOST_OFFERS)
    within(len(needs), say("The number of needs"), Unit.VALUES, 1, MOST_NEEDS)
    for cost in costs.values():
        within(cost, say("The cost of an offer"), Unit.NUMBER, 0, MOST)
    covers = {name: sorted(needs.keys() & set(offers[name])) for name in sorted(offers)}
    supply = dict.fromkeys(sorted(needs), 0)
    for covered in covers.values():
        for need in covered:
            supply[need] += 1
    reachable = {name: min(needs[name].times, offered) for name, offered in supply.items() if offered}
    return Problem(
        covers=covers,
        times=reachable,
        worths={name: needs[name].worth for name in reachable},
        costs={name: float(costs.get(name, 1.0)) for name in covers},
    )


def _plan(problem: Problem, solution: Solution, total: Estimate, needs: Mapping[str, Need]) -> Plan:
    steps = tuple(Step(offer, adds) for offer, adds in problem.ordered(solution.chosen))
    counts = problem.covered_by(step.offer for step in steps)
    left = {name: times - counts[name] for name, times in problem.times.items() if counts[name] < times}
    lacking = {name: needs[name].times - problem.times.get(name, 0) for name in sorted(needs)}
    beyond = {name: times for name, times in lacking.items() if times}
    gap = (total.high - total.low) / total.value if total.value else 0.0
    return Plan(steps, total, left, beyond, gap)


def _total(total: float, bound: float, source: Source) -> Estimate:
    unproved = say("The time ran out before this plan was proved best; a better one may exist.")
    warnings: tuple[Words, ...] = () if total == bound else (unproved,)
    return Estimate(total, Unit.POINTS, min(total, bound), max(total, bound), 1.0, source, warnings)


def _checked_patience(seconds: float) -> float:
    return within(seconds, say("The time to search"), Unit.SECONDS, 0, 600)
