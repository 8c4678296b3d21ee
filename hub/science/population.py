"""How many plants there are, and what one plant bears, from plots, walks and sample counts."""

from __future__ import annotations

import math
from collections.abc import Sequence
from statistics import fmean, variance

from hub.science.distributions import student_deviate
from hub.science.quantity import MOST, Estimate, Unit, checked_level, within
from hub.science.sources import QUADRATS, SAMPLE_MEAN, WALKED_COUNT
from hub.words import Words, say, say_n

ENOUGH_PLOTS = 10
"""Fewer plots give an interval too wide to plan by (our own default)."""

ENOUGH_PLANTS = 10
"""Fruits and seeds are counted on at least this many plants (our own default)."""

CLUMPED = 2.0
"""Variance over mean of the plot counts from which plants stand in clumps (our own default)."""


def population_from_plots(
    counts: Sequence[int], *, plot_area_m2: float, total_area_m2: float, level: float = 0.95
) -> Estimate:
    """Plants on an area, from counts on two or more equal plots laid out at random over it.

    Areas in m², the plots no larger together than the whole. The interval is Student’s t with
    finite population correction, and never below the plants actually counted.
    """
    n = within(len(counts), say("The number of plots"), Unit.PLOTS, 2, MOST)
    for count in counts:
        within(count, say("The plants of a plot"), Unit.PLANTS, 0, MOST)
    whole = within(total_area_m2, say("The whole area"), Unit.SQUARE_METRES, 0.0001, MOST)
    plot = within(plot_area_m2, say("The area of a plot"), Unit.SQUARE_METRES, 0.0001, MOST)
    within(round(n * plot, 6), say("The area of all plots"), Unit.SQUARE_METRES, 0.0001, round(whole, 6))
    checked_level(level)
    plots_in_all = max(whole / plot, n)
    value = max(plots_in_all * fmean(counts), sum(counts))
    error = plots_in_all * _half_width(counts, level) * math.sqrt(max(1 - n / plots_in_all, 0.0))
    low = min(max(value - error, sum(counts)), value)
    return Estimate(value, Unit.PLANTS, low, value + error, level, QUADRATS, _plot_warnings(counts))


def _half_width(counts: Sequence[int], level: float) -> float:
    """Half the interval of the mean plot count.

    Equal counts show no spread, so theirs is taken as the Poisson one; empty plots alone
    leave the exact Poisson bound for a count of none.
    """
    n = len(counts)
    if not any(counts):
        return -math.log((1 - level) / 2) / n
    return student_deviate(level, n - 1) * math.sqrt((variance(counts) or fmean(counts)) / n)


def _plot_warnings(counts: Sequence[int]) -> tuple[Words, ...]:
    warnings = []
    if len(counts) < ENOUGH_PLOTS:
        warnings.append(
            say_n(
                "Count at least {n} plot for a useful interval.",
                "Count at least {n} plots for a useful interval.",
                n=ENOUGH_PLOTS,
            )
        )
    if any(counts) and variance(counts) / fmean(counts) > CLUMPED:
        warnings.append(say("The plants stand in clumps; more plots would make this surer."))
    return tuple(warnings)


def population_from_walk(counted: int, *, error_share: float, level: float = 0.95) -> Estimate:
    """Plants from one count on foot and the counters’ own statement of how near they came.

    ``error_share`` (0 to 1) is the share of plants that may have been missed or counted twice;
    0.1 reads “to within a tenth”. The interval rests on that statement and nothing else.
    """
    plants = within(counted, say("The plants counted"), Unit.PLANTS, 0, MOST)
    error = plants * within(error_share, say("The counting error"), Unit.SHARE, 0, 1)
    checked_level(level)
    return Estimate(plants, Unit.PLANTS, plants - error, plants + error, level, WALKED_COUNT)


def sample_mean(values: Sequence[float], unit: Unit, *, level: float = 0.95) -> Estimate:
    """Mean of what two or more sampled plants or fruits bear, in ``unit``, never below 0.

    For fruits per plant or seeds per fruit; the values are counts or weights, 0 or more.
    """
    n = within(len(values), say("The number of counts"), Unit.VALUES, 2, MOST)
    for value in values:
        within(value, say("A count"), unit, 0, MOST)
    checked_level(level)
    mean = fmean(values)
    error = student_deviate(level, n - 1) * math.sqrt(variance(values) / n)
    few = say_n(
        "Only {n} was counted; count at least {enough}.",
        "Only {n} were counted; count at least {enough}.",
        n=n,
        enough=ENOUGH_PLANTS,
    )
    warnings = (few,) if n < ENOUGH_PLANTS else ()
    return Estimate(mean, unit, max(mean - error, 0.0), mean + error, level, SAMPLE_MEAN, warnings)
