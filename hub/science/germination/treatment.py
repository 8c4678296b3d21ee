"""What a treatment (cold, smoke, a nick in the coat) does to germination, over one lot or several."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from hub.science.distributions import student_deviate
from hub.science.germination.comparison import pooled, scatter_within
from hub.science.germination.sources import TREATMENT
from hub.science.proportions import Trial
from hub.science.quantity import MOST, Estimate, Unit, checked_level, normal_deviate, within
from hub.science.regression.binomial import BinomialFit, Link, fit_binomial
from hub.words import Refused, say

MOST_LOTS = 50


class TreatedLot(NamedTuple):
    """One lot’s replicates without the treatment and with it, one or more of each."""

    without: Sequence[Trial]
    treated: Sequence[Trial]


@dataclass(frozen=True)
class TreatmentEffect:
    """How many times the odds of germinating the treatment gives, the lots allowed to differ.

    ``chance_alike`` is the chance of effects so different between lots if the treatment did the same
    to all; None for a single lot.
    """

    odds: Estimate
    scatter: float
    chance_alike: Estimate | None


def treatment_effect(lots: Sequence[TreatedLot], *, level: float = 0.95) -> TreatmentEffect:
    """Fit one effect to all lots, by the odds of germinating.

    Scatter of the replicates beyond luck widens the interval. ``Refused`` where lots or treatments
    germinate all or not at all, so that no odds can be given.
    """
    checked_level(level)
    within(len(lots), say("The number of lots"), Unit.VALUES, 1, MOST_LOTS)
    scatter, freedom = scatter_within([group for lot in lots for group in lot])
    fit = fit_binomial([pooled(group) for lot in lots for group in lot], _design(len(lots)), Link.LOGIT)
    deviate = normal_deviate(level) if scatter == 1 else student_deviate(level, freedom)
    effect, reach = fit.coefficients[0], deviate * math.sqrt(scatter) * fit.standard_errors[0]
    if abs(effect) + reach > math.log(MOST):
        raise Refused(say("These replicates differ too much to give odds. Sow more of them."))
    value, low, high = map(math.exp, (effect, effect - reach, effect + reach))
    odds = Estimate(value, Unit.TIMES, low, high, level, TREATMENT)
    return TreatmentEffect(odds, scatter, _chance_alike(fit, scatter, freedom))


def _design(lots: int) -> list[list[float]]:
    """A column for the treatment, then one for each lot; a row without and a row with, lot by lot."""
    return [
        [float(treated), *(float(lot == each) for each in range(lots))]
        for lot in range(lots)
        for treated in (False, True)
    ]


def _chance_alike(fit: BinomialFit, scatter: float, freedom: int) -> Estimate | None:
    """With one share for each row, the deviance left over is all difference between effects."""
    from scipy.special import chdtrc, fdtrc

    others = fit.degrees_of_freedom
    if not others:
        return None
    by_luck = scatter == 1
    chance = (
        chdtrc(others, fit.deviance) if by_luck else fdtrc(others, freedom, fit.deviance / others / scatter)
    )
    return Estimate.exact(float(chance), Unit.SHARE, TREATMENT)
