"""When to go and look again, so that the first ripe fruit is hardly ever missed."""

from __future__ import annotations

import math
from collections.abc import Sequence
from statistics import NormalDist, fmean, stdev
from typing import NamedTuple

from hub.science.distributions import student_deviate
from hub.science.phenology.sources import NEXT_VISIT, WEEKLY
from hub.science.quantity import Estimate, Unit, within
from hub.words import say

USUAL_DAYS = 7
"""Without a history: once a week."""

FEWEST_SEASONS = 3
LONGEST_DAYS = 400
OVER = 0.99
"""So sure that the fruit must have ripened already that the forecast tells no more."""


class Season(NamedTuple):
    """Days from the end of flowering to the first ripe fruit in one earlier season."""

    days: float


def next_visit(
    seasons: Sequence[Season], last_visit_day: int, stays_days: int, *, missed_at_most: float = 0.05
) -> Estimate:
    """Days to wait from the last visit, which found nothing ripe.

    ``last_visit_day`` (0 to 400) counts from the end of flowering, and a ripe fruit stays on the plant for
    ``stays_days`` (1 to 60). Of all the chance that fruit ripens before the next visit, no more than
    ``missed_at_most`` (0.001 to 0.5) is fruit that is gone again by then; as this holds between any two
    visits, it holds for the season. The chances are those of a normal distribution of the earlier seasons,
    widened for one season more. With fewer than three seasons, or when the forecast time is over, the
    answer is the weekly rhythm, or sooner where fruit falls sooner.
    """
    seen_on = within(last_visit_day, say("The day of the last visit"), Unit.DAYS, 0, LONGEST_DAYS)
    stays = within(stays_days, say("The days that ripe fruit stays"), Unit.DAYS, 1, 60)
    allowed = within(missed_at_most, say("The chance of missing it"), Unit.SHARE, 0.001, 0.5)
    days = [within(one.days, say("The days of a season"), Unit.DAYS, 0, LONGEST_DAYS) for one in seasons]
    ripens = _widened(days) if len(days) >= FEWEST_SEASONS else None
    if ripens is None or ripens.cdf(seen_on) > OVER:
        return Estimate.exact(min(USUAL_DAYS, stays), Unit.DAYS, WEEKLY)
    wait = stays  # what ripens right after a visit is still there
    while wait < LONGEST_DAYS and _missed(ripens, seen_on, wait + 1, stays) <= allowed:
        wait += 1
    return Estimate.exact(wait, Unit.DAYS, NEXT_VISIT)


def _missed(ripens: NormalDist, seen_on: float, wait: int, stays: int) -> float:
    """Of the chance that fruit ripens before the next visit, the part that is gone again by then."""
    before = ripens.cdf(seen_on)
    comes = ripens.cdf(seen_on + wait) - before
    return (ripens.cdf(seen_on + wait - stays) - before) / comes if comes > 0 else 0.0


def _widened(days: Sequence[float]) -> NormalDist:
    """The normal distribution of one season more, as wide as its few predecessors make it at two sigma."""
    n = len(days)
    spread = max(stdev(days), 1.0) * math.sqrt(1 + 1 / n)
    widening = student_deviate(0.9545, n - 1) / 2
    return NormalDist(fmean(days), spread * widening)
