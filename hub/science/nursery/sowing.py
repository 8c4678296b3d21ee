"""Seeds to sow for so many plants, surely enough, where batches differ or the share is itself uncertain."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Callable, Sequence

from hub.science.nursery.sources import SOWING, UNEVEN_BATCHES
from hub.science.proportions import Trial
from hub.science.quantity import Estimate, Source, Unit, within
from hub.words import Refused, say

MOST_PLANTS = 100_000
MOST_SEEDS = 10_000_000
LEAST_SHARE = 1e-4
SUREST = 0.9999


def share_through(stages: Sequence[float]) -> float:
    """The share (0 to 1) that lives through one to twenty stages, each with its own share."""
    within(len(stages), say("The number of stages"), Unit.VALUES, 1, 20)
    for share in stages:
        within(share, say("The share that lives through a stage"), Unit.SHARE, 0, 1)
    return math.prod(stages)


def seeds_to_sow(plants: int, share: float, *, chance: float = 0.95, likeness: float = 0.0) -> Estimate:
    """Fewest seeds so that at least ``plants`` (0 to 100,000) live, with this chance (0.5 to 0.9999).

    ``share`` (0.0001 to 1) of the seeds become plants. ``likeness`` (0 to 0.5) is how alike the fates
    of two seeds of a batch are: 0 for independent seeds, 0.05 to 0.1 where whole trays fail.
    """
    within(share, say("The share that becomes plants"), Unit.SHARE, LEAST_SHARE, 1)
    alike = within(likeness, say("The likeness within a batch"), Unit.SHARE, 0, 0.5)
    if alike == 0 or share == 1:
        return _fewest(plants, share, chance, lambda seeds: _binomial(seeds, plants, share), SOWING)
    a, b = share * (1 - alike) / alike, (1 - share) * (1 - alike) / alike
    return _fewest(plants, share, chance, lambda seeds: _uneven(seeds, plants, a, b), UNEVEN_BATCHES)


def seeds_to_sow_after_test(plants: int, test: Trial, *, chance: float = 0.95) -> Estimate:
    """The same where the share is known from a test alone, whose own uncertainty asks for some more.

    The share has the beta distribution that the test leaves under Jeffreys’ prior.
    """
    within(test.tested, say("The seeds tested"), Unit.SEEDS, 1, MOST_SEEDS)
    within(test.good, say("The seeds that became plants"), Unit.SEEDS, 1, test.tested)
    a, b = test.good + 0.5, test.tested - test.good + 0.5
    return _fewest(plants, a / (a + b), chance, lambda seeds: _uneven(seeds, plants, a, b), UNEVEN_BATCHES)


def chance_of_plants(seeds: int, plants: int, share: float) -> float:
    """Chance (0 to 1) that so many seeds give at least so many plants, each seed for itself."""
    within(seeds, say("The seeds sown"), Unit.SEEDS, 0, MOST_SEEDS)
    within(plants, say("The plants wanted"), Unit.PLANTS, 0, MOST_PLANTS)
    within(share, say("The share that becomes plants"), Unit.SHARE, 0, 1)
    return _binomial(seeds, plants, share)


def _fewest(
    plants: int, share: float, chance: float, reached: Callable[[int], float], source: Source
) -> Estimate:
    within(plants, say("The plants wanted"), Unit.PLANTS, 0, MOST_PLANTS)
    sure = within(chance, say("The wanted chance"), Unit.SHARE, 0.5, SUREST)
    ends = plants
    while reached(ends) < sure:
        ends = max(2 * ends, 1)
        if ends > MOST_SEEDS:
            raise Refused(say("No number of seeds gives so many plants so surely. Ask for less."))
    sizes = range(plants, ends + 1)
    needed = sizes[bisect_left(sizes, sure, key=reached)]
    return Estimate.exact(needed, Unit.SEEDS, source)


def _binomial(seeds: int, plants: int, share: float) -> float:
    """Chance of at least ``plants`` of ``seeds``."""
    if plants <= 0:
        return 1.0
    if seeds < plants:
        return 0.0
    from scipy.special import betainc

    return float(betainc(plants, seeds - plants + 1, share))


def _uneven(seeds: int, plants: int, a: float, b: float) -> float:
    """The same where the share differs from batch to batch, by a beta distribution."""
    from scipy.stats import betabinom

    return float(betabinom.sf(plants - 1, seeds, a, b))
