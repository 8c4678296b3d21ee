"""What share lives on, when some are lost from sight: the product-limit curve."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from hub.science.phenology.sources import PRODUCT_LIMIT
from hub.science.quantity import Estimate, Unit, checked_level, normal_deviate, within
from hub.words import say

MOST_PLANTS = 100_000
LONGEST_DAYS = 100_000.0


class Watched(NamedTuple):
    """Days until the end came, or until the last look at one that lived (or was lost from sight)."""

    days: float
    ended: bool


class Step(NamedTuple):
    """A day on which some ended, and the share that lived on after it."""

    day: float
    living: Estimate


def living_after(watched: Sequence[Watched], *, level: float = 0.95) -> list[Step]:
    """Share living (0 to 1) after each day on which one or more of 1 to 100,000 ended, with its interval.

    The interval is Greenwood’s on the scale log(-log S), which stays between 0 and 1; where all have
    ended it reaches from 0 to the step before.
    """
    within(len(watched), say("The number watched"), Unit.PLANTS, 1, MOST_PLANTS)
    for one in watched:
        within(one.days, say("The days watched"), Unit.DAYS, 0, LONGEST_DAYS)
    deviate, steps, living, spread = normal_deviate(checked_level(level)), [], 1.0, 0.0
    for day in sorted({one.days for one in watched if one.ended}):
        at_risk = sum(one.days >= day for one in watched)
        ended = sum(one.days == day and one.ended for one in watched)
        before, living = living, living * (1 - ended / at_risk)
        if at_risk == ended:
            steps.append(Step(day, Estimate(0.0, Unit.SHARE, 0.0, before, level, PRODUCT_LIMIT)))
            break
        spread += ended / (at_risk * (at_risk - ended))
        steps.append(Step(day, _between(living, spread, deviate, level)))
    return steps


def _between(living: float, spread: float, deviate: float, level: float) -> Estimate:
    factor = math.exp(deviate * math.sqrt(spread) / -math.log(living))
    return Estimate(living, Unit.SHARE, living**factor, living ** (1 / factor), level, PRODUCT_LIMIT)
