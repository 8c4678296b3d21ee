"""How fast a lot is dying, from its own viability tests over the years: a line in probits on time.

Where tests scatter more than luck allows, their scatter widens the intervals (Finney’s factor).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from hub.science.distributions import student_deviate
from hub.science.longevity.decline import LONGEST_DAYS, Decline
from hub.science.proportions import LARGEST_TEST, Trial
from hub.science.quantity import Unit, checked_level, normal_deviate, within
from hub.science.regression.binomial import BinomialFit, Link, fit_binomial
from hub.words import Refused, say

MOST_TESTS = 200
HETEROGENEOUS = 0.05
"""Chance below which the scatter of the tests is taken for more than luck (from memory: Finney 1971)."""

SURELY = 1 - 1e-9
"""A fall no surer than this would have limits too far away to be held."""


class StoredTest(NamedTuple):
    """Seeds found alive of those tested, so many days after the first day."""

    days: float
    result: Trial


def fit_series(tests: Sequence[StoredTest], *, level: float = 0.95) -> Decline:
    """Fit the line to a lot’s tests on two days or more.

    ``Refused`` when viability does not fall, or not by more than luck could make it at this level.
    """
    checked_level(level)
    within(len(tests), say("The number of tests"), Unit.VALUES, 2, MOST_TESTS)
    for days, (good, tested) in tests:
        within(days, say("The day of a test"), Unit.DAYS, 0, LONGEST_DAYS)
        within(tested, say("The seeds tested"), Unit.SEEDS, 1, LARGEST_TEST)
        within(good, say("The living seeds"), Unit.SEEDS, 0, tested)
    if len({test.days for test in tests}) < 2:
        raise Refused(say("Tests on two days or more are needed."))
    last = max(test.days for test in tests)
    line = [(1.0, test.days / last) for test in tests]
    return _decline(fit_binomial([test.result for test in tests], line, Link.PROBIT), last, level)


def _decline(fit: BinomialFit, last: float, level: float) -> Decline:
    """The line in days; it must fall surely, or no time could be given an upper limit."""
    scatter, deviate = _yardstick(fit, level)
    (k_k, k_s), (_, s_s) = fit.covariance
    k_i, slope = fit.coefficients
    if slope * SURELY + deviate * math.sqrt(scatter * s_s) >= 0:
        raise Refused(
            say("These tests do not show yet that the seed is dying: luck alone could explain them.")
        )
    across, down = scatter * k_s / last, scatter * s_s / last**2
    covariance = ((scatter * k_k, across), (across, down))
    return Decline(k_i, slope / last, covariance, deviate, scatter, last, level)


def _yardstick(fit: BinomialFit, level: float) -> tuple[float, float]:
    """Scatter and deviate: Student’s, by the scatter, where that is more than luck; else the normal."""
    from scipy.special import chdtrc

    if fit.scatter > 1 and chdtrc(fit.degrees_of_freedom, fit.pearson) < HETEROGENEOUS:
        return fit.scatter, student_deviate(level, fit.degrees_of_freedom)
    return 1.0, normal_deviate(level)
