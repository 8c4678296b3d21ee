"""The two distributions against a numerical library that computes them by other means."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import special, stats

from hub.science.distributions import beta_below, beta_quantile, student_deviate

parameters = st.floats(0.5, 5000)


@given(st.floats(0, 1), parameters, parameters)
def test_the_beta_distribution_agrees_with_scipy(x, a, b):
    assert beta_below(x, a, b) == pytest.approx(special.betainc(a, b, x), rel=1e-9, abs=1e-12)


@given(st.floats(0.0001, 0.9999), parameters, parameters)
def test_beta_quantiles_agree_with_scipy(probability, a, b):
    assert beta_quantile(probability, a, b) == pytest.approx(
        special.betaincinv(a, b, probability), rel=1e-9, abs=1e-12
    )


@given(st.floats(0.001, 0.999), parameters, parameters)
def test_a_quantile_undoes_the_distribution(probability, a, b):
    assert beta_below(beta_quantile(probability, a, b), a, b) == pytest.approx(probability, abs=1e-7)


@pytest.mark.parametrize(("x", "below"), [(-0.1, 0), (0, 0), (1, 1), (1.1, 1)])
def test_nothing_lies_outside_0_to_1(x, below):
    assert beta_below(x, 2, 3) == below


@pytest.mark.parametrize("level", [0.5, 0.8, 0.9, 0.95, 0.99, 0.9999])
@pytest.mark.parametrize("degrees_of_freedom", [1, 2, 3, 7, 30, 399, 100_000])
def test_student_deviates_agree_with_scipy(level, degrees_of_freedom):
    expected = stats.t.ppf((1 + level) / 2, degrees_of_freedom)
    assert student_deviate(level, degrees_of_freedom) == pytest.approx(expected, rel=1e-8)
