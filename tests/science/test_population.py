"""Plants counted in plots and on foot: intervals hold the figure, and nothing counted is lost."""

from statistics import fmean

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from hub.science.population import population_from_plots, population_from_walk, sample_mean
from hub.science.quantity import OutOfRange, Unit
from hub.words import Refused

plots = st.lists(st.integers(0, 200), min_size=2, max_size=40)
levels = st.floats(0.5, 0.999)


@given(plots, st.floats(0.01, 100), st.floats(1, 50), levels)
def test_the_interval_holds_the_estimate_and_never_less_than_was_counted(counts, plot, times, level):
    whole = plot * len(counts) * times
    figure = population_from_plots(counts, plot_area_m2=plot, total_area_m2=whole, level=level)
    assert sum(counts) <= figure.low <= figure.value <= figure.high
    assert figure.unit is Unit.PLANTS


@given(plots, st.integers(2, 20))
def test_when_the_plots_are_the_whole_area_the_count_is_exact(counts, plot):
    figure = population_from_plots(counts, plot_area_m2=plot, total_area_m2=plot * len(counts))
    assert figure.low == pytest.approx(figure.high, abs=1e-6) == pytest.approx(sum(counts), abs=1e-6)


@given(plots, levels)
def test_more_confidence_never_narrows_the_interval(counts, level):
    narrow = population_from_plots(counts, plot_area_m2=1, total_area_m2=10_000, level=level)
    wide = population_from_plots(counts, plot_area_m2=1, total_area_m2=10_000, level=level + 0.0005)
    assert wide.low <= narrow.low
    assert narrow.high <= wide.high


def test_equal_counts_still_leave_doubt():
    figure = population_from_plots([4] * 12, plot_area_m2=1, total_area_m2=1000)
    assert figure.low < figure.value < figure.high


def test_empty_plots_do_not_prove_that_nothing_grows():
    figure = population_from_plots([0] * 20, plot_area_m2=1, total_area_m2=1000)
    assert (figure.value, figure.low) == (0, 0)
    # Exact Poisson bound for none seen, 3.689 at 97.5 %, over 20 plots (common practice, algebra).
    assert figure.high == pytest.approx(3.6889 / 20 * 1000 * 0.98**0.5, rel=1e-4)


def test_few_plots_and_clumps_are_said():
    few = population_from_plots([0, 1, 0, 60], plot_area_m2=1, total_area_m2=1000)
    said = " ".join(str(warning) for warning in few.warnings)
    assert "at least 10 plots" in said
    assert "clumps" in said
    assert population_from_plots([3, 4] * 5, plot_area_m2=1, total_area_m2=1000).warnings == ()


@pytest.mark.parametrize(
    ("counts", "plot", "whole"), [([5], 1, 10), ([5, 5], 6, 10), ([5, -1], 1, 10), ([5, 5], 0, 10)]
)
def test_plots_that_cannot_be_are_refused(counts, plot, whole):
    with pytest.raises(OutOfRange):
        population_from_plots(counts, plot_area_m2=plot, total_area_m2=whole)


def test_a_walked_count_is_as_good_as_its_counters_say():
    figure = population_from_walk(200, error_share=0.1)
    assert (figure.low, figure.value, figure.high) == (180, 200, 220)
    assert population_from_walk(200, error_share=0).standard_error == 0


@given(st.lists(st.floats(0, 500), min_size=2, max_size=30), levels)
def test_the_interval_of_a_mean_holds_it_and_stays_above_nothing(values, level):
    figure = sample_mean(values, Unit.FRUITS, level=level)
    assert 0 <= figure.low <= figure.value <= figure.high


@pytest.mark.parametrize("values", [[3, 5], [12, 18, 9, 22, 15], [7.5] * 3 + [30.25] * 9])
def test_the_interval_of_a_mean_agrees_with_scipy(values):
    figure = sample_mean(values, Unit.FRUITS, level=0.9)
    low, high = stats.t.interval(0.9, len(values) - 1, fmean(values), stats.sem(values))
    assert (figure.low, figure.high) == pytest.approx((max(low, 0), high))


def test_a_mean_of_few_says_so_and_one_alone_is_refused():
    assert "Only 9 were counted" in str(sample_mean([3] * 9, Unit.SEEDS).warnings[0])
    assert sample_mean([3] * 10, Unit.SEEDS).warnings == ()
    with pytest.raises(Refused):
        sample_mean([3], Unit.SEEDS)
