"""Binomial regression: what it gives back, and what it says it cannot."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.science.proportions import Trial
from hub.science.regression.binomial import Link, fit_binomial
from hub.words import Refused

links = st.sampled_from(Link)


@given(st.integers(1, 99), links)
def test_a_level_alone_is_the_share_itself(good, link):
    fit = fit_binomial([Trial(good, 100)], [(1.0,)], link)
    (level,) = fit.coefficients
    share = 1 / (1 + math.exp(-level)) if link is Link.LOGIT else math.erfc(-level / math.sqrt(2)) / 2
    assert share == pytest.approx(good / 100)
    assert fit.deviance >= 0
    assert (fit.deviance, fit.degrees_of_freedom, fit.scatter) == (pytest.approx(0, abs=1e-9), 0, 1)


@given(st.lists(st.integers(5, 45), min_size=4, max_size=8), links)
def test_calling_good_bad_turns_every_sign(goods, link):
    line = [(1.0, float(place)) for place in range(len(goods))]
    fit = fit_binomial([Trial(good, 50) for good in goods], line, link)
    turned = fit_binomial([Trial(50 - good, 50) for good in goods], line, link)
    assert turned.coefficients == pytest.approx([-figure for figure in fit.coefficients], abs=1e-7)
    assert turned.standard_errors == pytest.approx(fit.standard_errors)
    assert turned.pearson == pytest.approx(fit.pearson, abs=1e-6)


def test_scatter_beyond_luck_is_counted_and_less_than_luck_is_not():
    level = [(1.0,)] * 3
    assert fit_binomial([Trial(10, 100), Trial(50, 100), Trial(90, 100)], level, Link.LOGIT).scatter > 10
    assert fit_binomial([Trial(50, 100)] * 3, level, Link.LOGIT).scatter == 1


@pytest.mark.parametrize("link", Link)
@pytest.mark.parametrize(
    ("goods", "line"),
    [
        ((50, 50, 0, 0), (0, 1, 2, 3)),  # all good, then all bad
        ((50, 50, 50, 50), (0, 1, 2, 3)),
        ((50, 30, 0, 0), (0, 1, 2, 3)),  # the same, with one place to turn about
        ((30, 20, 10, 5), (1, 1, 1, 1)),  # no line through one place
    ],
)
def test_trials_that_settle_nothing_are_refused(goods, line, link):
    trials = [Trial(good, 50) for good in goods]
    with pytest.raises(Refused, match="too few"):
        fit_binomial(trials, [(1.0, float(x)) for x in line], link)


@pytest.mark.parametrize("link", Link)
def test_nearly_all_or_nothing_is_still_fitted(link):
    goods = (1000, 999, 1, 0)
    fit = fit_binomial([Trial(good, 1000) for good in goods], [(1.0, float(x)) for x in range(4)], link)
    assert fit.coefficients[1] < 0
    assert fit.coefficients[0] == pytest.approx(-1.5 * fit.coefficients[1])


def test_trials_far_out_on_a_steep_line_keep_every_figure_finite():
    line = [(1.0, x) for x in (-60.0, -1.0, 0.0, 1.0, 60.0)]
    fit = fit_binomial([Trial(good, 50) for good in (50, 42, 25, 8, 0)], line, Link.PROBIT)
    assert math.isfinite(fit.deviance)
    assert math.isfinite(fit.pearson)


def test_steps_that_go_astray_are_refused():
    trials = [Trial(0, 10**6), Trial(999_999, 10**6), Trial(743_745, 10**6), Trial(0, 1)]
    line = [(1.0, x) for x in (6.5e-14, 1.0, 1.2e-5, 2.5e-3)]
    with pytest.raises(Refused, match="too few"):
        fit_binomial(trials, line, Link.PROBIT)
