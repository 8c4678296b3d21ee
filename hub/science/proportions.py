"""What a test of a few seeds says about the rest: filled shares, viable shares and their limits."""

from __future__ import annotations

import math
from bisect import bisect_left
from typing import NamedTuple

from hub.science.distributions import beta_quantile
from hub.science.quantity import Estimate, Unit, checked_level, normal_deviate, within
from hub.science.sources import EXACT_BINOMIAL, VIABLE_SEEDS, WILSON
from hub.words import say

LARGEST_TEST = 1_000_000
"""More seeds than any test uses."""


EXPECTED_PER_BAD = 10
"""Where this many times as many bad seeds were due, so few come up less than once in ten thousand."""


class Trial(NamedTuple):
    """Seeds found good (filled, viable, germinated) among the seeds tested."""

    good: int
    tested: int


def wilson_share(trial: Trial, *, level: float = 0.95) -> Estimate:
    """The good share with the Wilson interval, whose coverage is right on average."""
    good, n = _checked(trial)
    z = normal_deviate(level)
    centre = 2 * good + z * z
    reach = z * math.sqrt(z * z + 4 * good * (1 - good / n))
    low, high = ((centre + side) / (2 * (n + z * z)) for side in (-reach, reach))
    share = good / n
    return Estimate(share, Unit.SHARE, max(min(low, share), 0.0), min(max(high, share), 1.0), level, WILSON)


def exact_share(trial: Trial, *, level: float = 0.95) -> Estimate:
    """The good share with the exact binomial interval, whose coverage is never below ``level``.

    The one to check a limit with: it errs on the careful side for small tests.
    """
    good, n = _checked(trial)
    tail = (1 - checked_level(level)) / 2
    low = beta_quantile(tail, good, n - good + 1) if good else 0.0
    high = beta_quantile(1 - tail, good + 1, n - good) if good < n else 1.0
    return Estimate(good / n, Unit.SHARE, low, high, level, EXACT_BINOMIAL)


def bad_share_not_ruled_out(trial: Trial, *, level: float = 0.95) -> float:
    """The largest bad share (0 to 1) that a test leaves possible, with one-sided confidence.

    What a cut test can prove: five good seeds of five still leave 45 % bad possible. Follows by
    calculation from the exact binomial bound.
    """
    good, n = _checked(trial)
    checked_level(level)
    return beta_quantile(level, n - good + 1, good) if good else 1.0


def seeds_to_prove(good_share: float, *, bad: int = 0, level: float = 0.95) -> int:
    """Fewest seeds to test so that, with ``bad`` bad ones, at least ``good_share`` good is shown.

    ``good_share`` from 0.01 to 0.99, ``bad`` from 0 to 100, confidence one-sided by the exact
    binomial bound. Follows by calculation.
    """
    within(good_share, say("The share to show"), Unit.SHARE, 0.01, 0.99)
    within(bad, say("The bad seeds"), Unit.SEEDS, 0, 100)
    limit = 1 - good_share
    sizes = range(bad + 1, math.ceil(EXPECTED_PER_BAD * (bad + 1) / limit) + 1)
    place = bisect_left(
        sizes, True, key=lambda n: bad_share_not_ruled_out(Trial(n - bad, n), level=level) <= limit
    )
    return sizes[place]


def seeds_to_estimate(share: float, half_width: float, *, level: float = 0.95) -> int:
    """Seeds to test so that a share comes out to within ``half_width`` (0.001 to 0.5) either way.

    z² p (1 - p) / h², rounded up: follows by calculation.
    """
    p = within(share, say("The expected share"), Unit.SHARE, 0, 1)
    h = within(half_width, say("The half-width of the interval"), Unit.SHARE, 0.001, 0.5)
    return math.ceil(normal_deviate(level) ** 2 * p * (1 - p) / h**2)


def viable_seeds(count: Estimate, filled: Trial, viable: Trial, *, level: float = 0.95) -> Estimate:
    """Living seeds in a lot: its count x the filled share x the viable share of the filled.

    The product of the two shares is given the beta distribution with its exact mean and variance
    (each share under Jeffreys’ prior), so it holds where every seed was good; the count’s error
    joins in relative terms.
    """
    shares = (_checked(filled), _checked(viable))
    mean, mean_square = _moments_of_product(shares)
    a, b = _beta_with(mean, mean_square - mean * mean)
    value = count.value * math.prod(good / n for good, n in shares)
    tail = (1 - checked_level(level)) / 2
    ends = [beta_quantile(tail, a, b) / mean, beta_quantile(1 - tail, a, b) / mean]
    deviate = normal_deviate(level)
    relative = deviate * count.standard_error / count.value if count.value else 0.0
    low = count.value * mean * max(1 - math.hypot(1 - ends[0], relative), 0.0)
    high = count.value * mean * (1 + math.hypot(ends[1] - 1, relative))
    return Estimate(value, Unit.SEEDS, min(low, value), max(high, value), level, VIABLE_SEEDS, count.warnings)


def _moments_of_product(trials: tuple[Trial, ...]) -> tuple[float, float]:
    """Mean and mean square of a product of independent shares under Jeffreys’ prior."""
    mean = math.prod((good + 0.5) / (n + 1) for good, n in trials)
    mean_square = math.prod((good + 0.5) * (good + 1.5) / ((n + 1) * (n + 2)) for good, n in trials)
    return mean, mean_square


def _beta_with(mean: float, variance: float) -> tuple[float, float]:
    """The two parameters of the beta distribution with this mean and variance."""
    concentration = mean * (1 - mean) / variance - 1
    return mean * concentration, (1 - mean) * concentration


def _checked(trial: Trial) -> Trial:
    within(trial.tested, say("The seeds tested"), Unit.SEEDS, 1, LARGEST_TEST)
    within(trial.good, say("The good seeds"), Unit.SEEDS, 0, trial.tested)
    return trial
