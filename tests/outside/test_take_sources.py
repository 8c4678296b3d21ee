"""Populations, crops and shares against open data and published formulas, each with its source."""

import pytest

from hub.science.population import population_from_plots
from hub.science.quantity import Estimate, Evidence, Source, Unit, normal_deviate
from hub.science.take import allowance, most_from_mother, one_in, seed_crop

# Published: fifty plots of balsam-fir seedlings (Davison & Hinkley 1997; “fir” of the R package
# boot) hold 107 seedlings, 7 plots none, with a variance of 2.408571. These fifty counts are made up
# to have the same figures, on which alone the interval depends.
FIFTY_PLOTS = [0] * 7 + [1] * 14 + [2] * 10 + [3] * 8 + [4] * 6 + [5] * 5

ENDLESS = 1e9


# Computed: scipy.stats.t.interval on the data.
def test_seedlings_in_a_plot_of_an_endless_area():
    figure = population_from_plots(FIFTY_PLOTS, plot_area_m2=ENDLESS / 1e7, total_area_m2=ENDLESS)
    assert (figure.value / 1e7, figure.low / 1e7, figure.high / 1e7) == pytest.approx(
        (2.14, 1.698939, 2.581061), rel=1e-5
    )


# Computed: the same interval’s one-sided 95 % lower bound.
def test_the_lower_bound_of_a_plot():
    figure = population_from_plots(FIFTY_PLOTS, plot_area_m2=ENDLESS / 1e7, total_area_m2=ENDLESS, level=0.9)
    assert figure.low / 1e7 == pytest.approx(1.772031, rel=1e-5)


# Published formula (a course sheet on quadrat samples): finite population correction. Computed.
def test_seedlings_of_a_thousand_plots():
    figure = population_from_plots(FIFTY_PLOTS, plot_area_m2=2.32, total_area_m2=2320)
    assert (figure.value, figure.low, figure.high) == pytest.approx((2140, 1710.1, 2569.9), abs=0.05)


def measured(value, standard_error):
    reach = normal_deviate(0.95) * standard_error
    return Estimate(
        value, Unit.VALUES, value - reach, value + reach, 0.95, Source("a worked case", Evidence.OWN)
    )


WORKED_CASE = [measured(400, 60), measured(0.6, 0.05), measured(12, 2), measured(25, 3)]


# Computed: two million lognormal draws gave 44,834 as the 5 % quantile; normal inputs gave 43,308
# and the first-order formula 46,361, which is too bold.
def test_a_seed_crop_and_its_low_end():
    crop = seed_crop(WORKED_CASE)
    assert crop.value == pytest.approx(72_000)
    assert crop.low == pytest.approx(44_834, rel=0.001)
    assert crop.low < 46_361


# Computed: a fifth of the simulated low end is 8,966 seeds.
def test_a_fifth_of_the_crop():
    allowed = allowance(0.20, seed_crop(WORKED_CASE), WORKED_CASE[3])
    assert allowed.seeds == pytest.approx(8_966, rel=0.001)
    assert allowed.fruits == allowed.seeds // 25


# Algebra: how volunteers say a share.
@pytest.mark.parametrize(("share", "every"), [(0.20, 5), (0.10, 10), (0.05, 20), (0.02, 50)])
def test_a_share_in_plain_counting(share, every):
    assert one_in(share) == every


# Common practice, no source: the line that every sheet prints, “if the plant has 40 ripe fruits”.
@pytest.mark.parametrize(("fruits", "most"), [(9, 0), (10, 1), (19, 1), (40, 4), (100, 10)])
def test_a_tenth_of_a_plant_in_whole_fruits(fruits, most):
    plenty = most_from_mother(0.10, fruits, WORKED_CASE[3], allowed_seeds=10**6, mothers=50)
    assert plenty.fruits == most
