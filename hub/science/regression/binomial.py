"""How the share of good seed hangs on other figures: a binomial model, fitted by reweighted least squares.

The scores of Fisher’s method are those of McCullagh & Nelder 1989 (from memory).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from hub.science.proportions import Trial
from hub.words import Refused, say

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

MOST_STEPS = 25
"""Ten are plenty; where all is good or none, the coefficients grow without end, step by step."""

NEAR = 1e-10
"""Coefficients that move by less, beside themselves, have settled."""

LEAST = 1e-300
"""Stands for a chance or weight too small to be held."""


class Link(StrEnum):
    """The scale on which effects add up: logarithms of odds, or normal deviates."""

    LOGIT = "logit"
    PROBIT = "probit"


@dataclass(frozen=True)
class BinomialFit:
    """Coefficients with their covariance matrix, and how far the trials lie from the model.

    ``pearson`` and ``deviance`` have ``degrees_of_freedom``: trials less coefficients.
    """

    coefficients: tuple[float, ...]
    covariance: tuple[tuple[float, ...], ...]
    deviance: float
    pearson: float
    degrees_of_freedom: int

    @property
    def standard_errors(self) -> tuple[float, ...]:
        """Of each coefficient, by the binomial variance alone."""
        return tuple(math.sqrt(row[place]) for place, row in enumerate(self.covariance))

    @property
    def scatter(self) -> float:
        """Pearson’s chi-square a degree of freedom, at least 1: how much more than luck."""
        return max(self.pearson / self.degrees_of_freedom, 1.0) if self.degrees_of_freedom else 1.0


def fit_binomial(trials: Sequence[Trial], design: Sequence[Sequence[float]], link: Link) -> BinomialFit:
    """Fit the share of good seed to the rows of a design, one for each trial (1 seed or more each).

    ``Refused`` when the trials cannot settle the coefficients: too few, or all good on one side of a
    line and all bad on the other.
    """
    import numpy as np

    rows = np.array(design, dtype=np.float64)
    good, tested = np.array(trials, dtype=np.float64).T
    shares = (good + 0.5) / (tested + 1)
    scale = _scale_of(shares, link)
    coefficients = np.asarray(np.linalg.lstsq(rows, scale)[0], dtype=np.float64)
    for _ in range(MOST_STEPS):
        with np.errstate(over="ignore", invalid="ignore"):
            score, information = _score(rows, coefficients, good, tested, link)
        if not _settles(information):
            break
        step = np.linalg.solve(information, score)
        coefficients = coefficients + step
        if (np.abs(step) <= NEAR * (1 + np.abs(coefficients))).all():
            return _fitted(rows, coefficients, good, tested, link)
    raise Refused(say("These tests are too few, or too much all or nothing, to fit a model to."))


def _settles(information: Array) -> bool:
    """Whether the trials say something of every coefficient; steps that went astray leave no numbers."""
    import numpy as np

    return bool(np.isfinite(information).all()) and np.linalg.matrix_rank(information) == len(information)


def _scale_of(shares: Array, link: Link) -> Array:
    from scipy.special import logit, ndtri

    scale: Array = logit(shares) if link is Link.LOGIT else ndtri(shares)
    return scale


def _chances(linear: Array, link: Link) -> tuple[Array, Array, Array]:
    """Chance of good, chance of bad, and slope of the former, each without loss in its tail."""
    import numpy as np
    from scipy.special import expit, ndtr

    if link is Link.LOGIT:
        good, bad = expit(linear), expit(-linear)
        slope = good * bad
    else:
        good, bad = ndtr(linear), ndtr(-linear)
        slope = np.exp(-linear * linear / 2) / math.sqrt(2 * math.pi)
    return np.maximum(good, LEAST), np.maximum(bad, LEAST), slope


def _score(rows: Array, coefficients: Array, good: Array, tested: Array, link: Link) -> tuple[Array, Array]:
    """Slope of the log-likelihood, and the expected information."""
    import numpy as np

    chance, other, slope = _chances(rows @ coefficients, link)
    spread = np.maximum(chance * other, LEAST)
    score = rows.T @ (slope * (good - tested * chance) / spread)
    return score, (rows.T * (tested * slope * slope / spread)) @ rows


def _fitted(rows: Array, coefficients: Array, good: Array, tested: Array, link: Link) -> BinomialFit:
    import numpy as np
    from scipy.special import xlogy

    _, information = _score(rows, coefficients, good, tested, link)
    chance, other, _ = _chances(rows @ coefficients, link)
    bad = tested - good
    deviance = 2 * (xlogy(good, good / (tested * chance)) + xlogy(bad, bad / (tested * other))).sum()
    pearson = ((good - tested * chance) ** 2 / (tested * chance * other)).sum()
    covariance = np.linalg.inv(information)
    return BinomialFit(
        tuple(coefficients.tolist()),
        tuple(map(tuple, covariance.tolist())),
        max(float(deviance), 0.0),  # rounding can carry a perfect fit below
        float(pearson),
        len(rows) - rows.shape[1],
    )
