"""Quantiles of the beta and Student distributions, from the standard library alone.

The everyday figures need no more than these two, so no page has to wait for a numerical library.
"""

from __future__ import annotations

import math
from functools import lru_cache


def beta_below(x: float, a: float, b: float) -> float:
    """Probability that a beta(a, b) variable is at most ``x`` (a, b > 0; x from 0 to 1).

    The continued fraction of the NIST Digital Library of Mathematical Functions, 8.17.22, taken
    on whichever side of the mean it converges fast.
    """
    if x <= 0 or x >= 1:
        return 0.0 if x <= 0 else 1.0
    if x > (a + 1) / (a + b + 2):
        return 1 - beta_below(1 - x, b, a)
    log_front = a * math.log(x) + b * math.log1p(-x) + math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b)
    return math.exp(log_front) / (a * _continued_fraction(x, a, b))


def _continued_fraction(x: float, a: float, b: float) -> float:
    """Evaluated from its tail; the number of terms needed grows as the root of the larger parameter."""
    fraction = 1.0
    for m in range(40 + int(4 * math.sqrt(max(a, b))), 0, -1):
        even = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m))
        odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1))
        fraction = 1 + even / (1 + odd / fraction)
    return 1 - (a + b) * x / ((a + 1) * fraction)


@lru_cache(maxsize=1024)
def beta_quantile(probability: float, a: float, b: float) -> float:
    """The ``x`` with ``beta_below(x, a, b) == probability`` (0 to 1), by sixty halvings."""
    low, high = 0.0, 1.0
    for _ in range(60):
        middle = (low + high) / 2
        if beta_below(middle, a, b) < probability:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def student_deviate(level: float, degrees_of_freedom: int) -> float:
    """Student’s t whose two-sided interval has probability ``level`` (0.5 to 0.9999), d.f. from 1 up."""
    share = beta_quantile(level, 0.5, degrees_of_freedom / 2)
    return math.sqrt(degrees_of_freedom * share / (1 - share))
