"""Whether replicates, of whatever size and number, differ by more than the luck of the draw."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from hub.science.germination.sources import DEALT, HETEROGENEITY
from hub.science.proportions import LARGEST_TEST, Trial, wilson_share
from hub.science.quantity import Estimate, Unit, within
from hub.words import say

MOST_REPLICATES = 200

ENOUGH_EXPECTED = 5
"""With fewer good or bad seeds expected in a replicate, the chi-square curve is no guide (from memory)."""

DEALS = 20_000
SEED = 20_000
"""Fixed, so that the same counts always get the same answer."""


@dataclass(frozen=True)
class Heterogeneity:
    """Chi-square of the replicates, its degrees of freedom, and the chance of one so large by luck."""

    chi_square: float
    degrees_of_freedom: int
    chance: Estimate

    @property
    def dispersion(self) -> float:
        """How many times the variance of pure luck: about 1 where the replicates agree."""
        return self.chi_square / self.degrees_of_freedom


def heterogeneity(replicates: Sequence[Trial]) -> Heterogeneity:
    """Compare two or more replicates of any sizes (1 seed or more each).

    Where few good or bad seeds are expected the chance is found by dealing the seeds out anew, and
    has an interval of its own. Replicates that are all good or all bad agree, with chance 1.
    """
    within(len(replicates), say("The number of replicates"), Unit.VALUES, 2, MOST_REPLICATES)
    for good, tested in replicates:
        within(tested, say("The seeds in a replicate"), Unit.SEEDS, 1, LARGEST_TEST)
        within(good, say("The good seeds"), Unit.SEEDS, 0, tested)
    good, tested = (sum(figures) for figures in zip(*replicates, strict=True))
    freedom, share = len(replicates) - 1, good / tested
    if good in (0, tested):
        return Heterogeneity(0.0, freedom, Estimate.exact(1.0, Unit.SHARE, HETEROGENEITY))
    chi_square = _chi_square(replicates, share)
    fewest = min(replicate.tested for replicate in replicates) * min(share, 1 - share)
    by_curve = fewest >= ENOUGH_EXPECTED
    chance = _by_curve(chi_square, freedom) if by_curve else _by_dealing(replicates, chi_square)
    return Heterogeneity(chi_square, freedom, chance)


def _chi_square(replicates: Sequence[Trial], share: float) -> float:
    away = ((good - tested * share) ** 2 / tested for good, tested in replicates)
    return math.fsum(away) / (share * (1 - share))


def _by_curve(chi_square: float, freedom: int) -> Estimate:
    from scipy.special import chdtrc

    return Estimate.exact(float(chdtrc(freedom, chi_square)), Unit.SHARE, HETEROGENEITY)


def _by_dealing(replicates: Sequence[Trial], chi_square: float) -> Estimate:
    """Share of random deals of the good seeds to the replicates that lie at least so far apart."""
    import numpy as np

    sizes = np.array([replicate.tested for replicate in replicates])
    good = sum(replicate.good for replicate in replicates)
    dealer = np.random.default_rng(SEED)
    dealt = dealer.multivariate_hypergeometric(sizes, good, size=DEALS, method="marginals")
    share = good / sizes.sum()
    apart = ((dealt - sizes * share) ** 2 / sizes).sum(axis=1) / (share * (1 - share))
    as_far = int((apart >= chi_square * (1 - 1e-9)).sum())
    found = wilson_share(Trial(as_far, DEALS))
    return Estimate(found.value, Unit.SHARE, found.low, found.high, found.level, DEALT)
