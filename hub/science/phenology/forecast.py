"""On which day the first fruit will be ripe, from the warmth that it took in the seasons before."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from statistics import fmean, stdev

from hub.science.distributions import student_deviate
from hub.science.phenology.sources import FORECAST
from hub.science.quantity import Source, Unit, checked_level, within
from hub.words import Refused, Words, say

MOST_SEASONS = 200
MOST_WARMTH = 20_000.0
FEWEST_SEASONS = 2
STILL_FEW = 5


@dataclass(frozen=True)
class RipeDay:
    """The likeliest day, and the first and last between which it lies with probability ``level``."""

    day: date
    earliest: date
    latest: date
    level: float
    source: Source = FORECAST
    warnings: tuple[Words, ...] = ()


def ripe_on(
    began: date,
    gathered: Sequence[float],
    seasons: Sequence[float],
    *,
    began_within_days: int = 0,
    level: float = 0.90,
) -> RipeDay:
    """The first day of ripe fruit.

    ``began`` is the day on which flowering ended, ``gathered`` the degree days by the end of each day from
    then on (seen so far, then as in a usual year), ``seasons`` the degree days that it took in two or more
    earlier seasons. Their spread is carried by Student’s t for one season more; ``began_within_days`` (0 to
    60) widens the ends where the end of flowering was itself seen only between two visits. Refused without
    two seasons: who has no history keeps visiting weekly and forecasts nothing.
    """
    sure = checked_level(level)
    if len(seasons) < FEWEST_SEASONS:
        raise Refused(say("Without two earlier seasons there is no forecast. Keep visiting every week."))
    within(len(seasons), say("The number of seasons"), Unit.VALUES, FEWEST_SEASONS, MOST_SEASONS)
    for warmth in seasons:
        within(warmth, say("The warmth of a season"), Unit.DEGREE_DAYS, 0, MOST_WARMTH)
    slack = timedelta(days=within(began_within_days, say("The days between visits"), Unit.DAYS, 0, 60))
    n = len(seasons)
    reach = student_deviate(sure, n - 1) * stdev(seasons) * (1 + 1 / n) ** 0.5
    middle = fmean(seasons)
    few = say("Few seasons are known, so the days lie far apart.")
    return RipeDay(
        day=_reached(began, gathered, middle),
        earliest=_reached(began, gathered, max(middle - reach, 0.0)) - slack,
        latest=_reached(began, gathered, middle + reach) + slack,
        level=sure,
        warnings=(few,) if n < STILL_FEW else (),
    )


def _reached(began: date, gathered: Sequence[float], wanted: float) -> date:
    """The first day by whose end so much warmth was gathered."""
    for days, warmth in enumerate(gathered):
        if warmth >= wanted:
            return began + timedelta(days=days)
    raise Refused(say("The temperatures end before so much warmth has come. Give more days."))
