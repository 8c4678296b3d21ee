"""Weights, test results and moistures against published worked figures, each with its source."""

import pytest

from hub.science.counts import Weighing, seeds_by_weight, thousand_seed_weight
from hub.science.drying import (
    dry_basis_from_fresh,
    fresh_basis_from_dry,
    moisture_from_oven,
    moisture_in_two_stages,
    target_weight,
)
from hub.science.proportions import (
    Trial,
    bad_share_not_ruled_out,
    exact_share,
    seeds_to_estimate,
    seeds_to_prove,
    viable_seeds,
    wilson_share,
)
from hub.science.tolerances import TABLES, compare_replicates

# Published: AOSA Rules, appendix 4, tutorial: eight replicates of Dimorphotheca sinuata in g.
DIMORPHOTHECA = Weighing((0.2224, 0.2134, 0.2130, 0.2116, 0.2145, 0.2071, 0.2116, 0.2125))


# Computed from the published weights.
def test_eight_replicates_of_a_hundred():
    assert DIMORPHOTHECA.variation_percent == pytest.approx(2.01449, abs=5e-6)
    assert DIMORPHOTHECA.is_even()
    thousand = thousand_seed_weight(DIMORPHOTHECA)
    assert (thousand.value, thousand.low, thousand.high) == pytest.approx(
        (2.132625, 2.09671, 2.16854), abs=6e-6
    )


# Computed from the published weights; the interval by turning that of the mean weight over.
def test_the_seeds_in_fifty_grams():
    figure = seeds_by_weight(DIMORPHOTHECA, 50)
    assert (figure.value, figure.low, figure.high) == pytest.approx((23_445.3, 23_057, 23_847), abs=0.5)


# Newcombe 1998, Statistics in Medicine 17:857, table I (the numbers from memory; scipy and
# statsmodels give the same).
@pytest.mark.parametrize(
    ("trial", "wilson", "exact"),
    [
        (Trial(81, 263), (0.2553, 0.3662), (0.2527, 0.3676)),
        (Trial(15, 148), (0.0624, 0.1605), (0.0578, 0.1617)),
        (Trial(0, 20), (0.0000, 0.1611), (0.0000, 0.1684)),
    ],
)
def test_intervals_of_proportions(trial, wilson, exact):
    score, binomial = wilson_share(trial), exact_share(trial)
    assert (score.low, score.high) == pytest.approx(wilson, abs=5.1e-5)
    assert (binomial.low, binomial.high) == pytest.approx(exact, abs=5.1e-5)


# Algebra: all n good at 95 % confidence leaves 1 - 0.05^(1/n) bad possible.
@pytest.mark.parametrize(("tested", "percent"), [(5, 45), (10, 26), (20, 14), (50, 6)])
def test_what_a_cut_test_can_prove(tested, percent):
    assert round(100 * bad_share_not_ruled_out(Trial(tested, tested))) == percent


# Computed from beta quantiles.
@pytest.mark.parametrize(("bad", "seeds"), [(0, 19), (1, 30), (2, 40), (3, 50)])
def test_seeds_that_show_eighty_five_per_cent(bad, seeds):
    assert seeds_to_prove(0.85, bad=bad) == seeds


# Algebra: the same fifty-nine as for alleles at 5 %.
def test_fifty_nine_good_seeds_show_ninety_five_per_cent():
    assert seeds_to_prove(0.95) == 59
    assert bad_share_not_ruled_out(Trial(59, 59)) == pytest.approx(0.04951, abs=5e-6)


# Algebra: z² p (1 - p) / h².
@pytest.mark.parametrize(
    ("share", "half_width", "seeds"), [(0.5, 0.05, 385), (0.85, 0.05, 196), (0.5, 0.10, 97)]
)
def test_seeds_for_a_wanted_half_width(share, half_width, seeds):
    assert seeds_to_estimate(share, half_width) == seeds


# Computed: 200,000 draws with beta-distributed shares gave 14,689 to 19,199.
def test_living_seeds_of_the_lot():
    figure = viable_seeds(seeds_by_weight(DIMORPHOTHECA, 50), Trial(45, 50), Trial(82, 100))
    assert figure.value == pytest.approx(17_302, abs=1)
    assert (figure.low, figure.high) == pytest.approx((14_689, 19_199), rel=0.002)


# Published: 7 CFR 201.55 (United States Federal Seed Act), read down to 70 %, the rest from memory.
CFR_FOUR = {99: 5, 98: 6, 97: 7, 96: 8, 95: 9, 94: 10, 92: 11, 90: 12, 88: 13, 86: 14, 83: 15, 80: 16, 77: 17}
CFR_TWO = {97: 6, 96: 6, 95: 7, 94: 8, 92: 9, 90: 9, 89: 10, 88: 10, 87: 11, 84: 11, 83: 12, 78: 13, 75: 14}


@pytest.mark.parametrize(("replicates", "rows"), [(4, CFR_FOUR), (2, CFR_TWO)])
def test_tolerances_between_replicates(replicates, rows):
    assert {mean: TABLES[replicates].at(mean) for mean in rows} == rows


# Formula: Miles 1963, given by Silva 2020, Seed Science Research; the studentized range quantiles
# 3.984015 and 3.169822 from scipy. The table follows it to within one point everywhere.
@pytest.mark.parametrize(("replicates", "quantile"), [(4, 3.984015), (2, 3.169822)])
def test_every_row_of_the_table_stands_near_the_formula(replicates, quantile):
    table = TABLES[replicates]
    for mean in range(table.from_mean[0], table.highest_mean + 1):
        formula = quantile * (mean * (100 - mean) / 100) ** 0.5
        assert abs(round(formula) - table.at(mean)) <= 1


# Computed: replicates of 92, 88, 95 and 85 range over 10 points of the 12 allowed.
def test_a_worked_set_of_replicates():
    assert compare_replicates([92, 88, 95, 85]).agree


# Published: International Rice Research Institute, Knowledge Bank: 1,000 kg from 25 to 14 % is 872 kg.
def test_a_tonne_dried():
    assert target_weight(1_000_000, 25, 14).value / 1000 == pytest.approx(872, abs=0.5)


# Computed.
@pytest.mark.parametrize(
    ("weight", "moisture", "wanted", "target"), [(100, 12, 5, 92.6316), (250, 18, 6, 218.0851)]
)
def test_target_weights(weight, moisture, wanted, target):
    assert target_weight(weight, moisture, wanted).value == pytest.approx(target, abs=5e-5)


# Computed; the formulas are those of seed testing (from memory).
def test_oven_moistures():
    assert moisture_from_oven(20.000, 25.000, 24.600).value == pytest.approx(8.00)
    assert moisture_in_two_stages(15, 8).value == pytest.approx(21.8)


# Algebra.
def test_a_fifth_of_fresh_weight_is_a_quarter_of_dry_weight():
    assert dry_basis_from_fresh(20) == pytest.approx(25)
    assert fresh_basis_from_dry(25) == pytest.approx(20)
