"""The line through a lot's tests: recovery, coverage, and what it cannot say."""

from statistics import NormalDist

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.science.longevity.equation import Mark
from hub.science.longevity.fitting import StoredTest, fit_series
from hub.science.proportions import Trial
from hub.science.quantity import OutOfRange, Unit
from hub.words import Refused

DAYS = (0, 50, 100, 150, 200, 250, 300)
FALLING = [StoredTest(0, Trial(96, 100)), StoredTest(2000, Trial(80, 100)), StoredTest(4000, Trial(48, 100))]
RAGGED = [
    StoredTest(day, Trial(good, 200))
    for day, good in zip(DAYS, (199, 150, 192, 120, 140, 30, 60), strict=True)
]


def series(k_i, sigma, seeds, days=DAYS, rng=None):
    shares = [NormalDist().cdf(k_i - day / sigma) for day in days]
    goods = rng.binomial(seeds, shares) if rng else [round(seeds * share) for share in shares]
    return [StoredTest(day, Trial(int(good), seeds)) for day, good in zip(days, goods, strict=True)]


@given(st.floats(0.5, 2.5), st.floats(60, 300))
def test_the_line_that_made_the_tests_is_found(k_i, sigma):
    found = fit_series(series(k_i, sigma, 1_000_000))
    assert found.initial.value == pytest.approx(k_i, abs=0.01)
    assert found.days_per_probit.value == pytest.approx(sigma, rel=0.01)


@given(st.floats(0.05, 0.95), st.sampled_from(Mark))
def test_after_the_time_to_a_share_that_share_is_alive(share, mark):
    found = fit_series(FALLING)
    years = found.time_to(share, mark)
    alive = found.viability_at(years.value * 365.25).value
    assert alive == pytest.approx(share * (found.viability_at(0).value if mark is Mark.OF_INITIAL else 1))
    assert 0 <= years.low <= years.value <= years.high


def test_the_intervals_hold_the_truth_about_as_often_as_they_say():
    rng = np.random.default_rng(6)
    held = dict.fromkeys(("k_i", "sigma", "half", "kept"), 0)
    kept = 100 * (2 - NormalDist().inv_cdf(0.85 * NormalDist().cdf(2)))
    for _ in range(300):
        found = fit_series(series(2, 100, 50, rng=rng))
        half, to_85 = found.time_to(0.5, Mark.OF_ALL), found.time_to(0.85, Mark.OF_INITIAL)
        held["k_i"] += found.initial.low <= 2 <= found.initial.high
        held["sigma"] += found.days_per_probit.low <= 100 <= found.days_per_probit.high
        held["half"] += half.low <= 200 / 365.25 <= half.high
        held["kept"] += to_85.low <= kept / 365.25 <= to_85.high
    assert all(273 <= count <= 298 for count in held.values()), held


def test_the_limits_of_the_time_are_where_the_band_crosses_the_mark():
    found = fit_series(FALLING)
    half = found.time_to(0.5, Mark.OF_ALL)
    assert found.viability_at(half.low * 365.25).low == pytest.approx(0.5, abs=1e-6)
    assert found.viability_at(half.high * 365.25).high == pytest.approx(0.5, abs=1e-6)


def test_scatter_beyond_luck_widens_and_is_told():
    ragged = fit_series(RAGGED)
    assert ragged.scatter > 10
    assert "scatter more" in str(ragged.days_per_probit.warnings[0])
    assert fit_series(FALLING).scatter == 1
    assert fit_series(FALLING).initial.warnings == ()
    assert fit_series(FALLING).initial.unit is Unit.PROBITS


def test_answers_far_beyond_the_tests_say_so():
    found = fit_series(FALLING)
    assert found.viability_at(8000).warnings == ()
    assert "far beyond" in str(found.viability_at(8001).warnings[0])
    assert "far beyond" in str(found.time_to(0.001, Mark.OF_ALL).warnings[0])


def test_a_mark_that_lies_behind_is_refused():
    with pytest.raises(Refused, match="already"):
        fit_series(FALLING).time_to(0.99, Mark.OF_ALL)


@pytest.mark.parametrize(
    ("tests", "problem"),
    [
        ([StoredTest(0, Trial(90, 100)), StoredTest(0, Trial(80, 100))], "two days"),
        ([StoredTest(0, Trial(90, 100)), StoredTest(900, Trial(89, 100))], "luck alone"),
        ([StoredTest(0, Trial(60, 100)), StoredTest(900, Trial(95, 100))], "luck alone"),
        ([StoredTest(0, Trial(100, 100)), StoredTest(900, Trial(0, 100))], "all or nothing"),
    ],
)
def test_tests_that_show_no_decline_are_refused(tests, problem):
    with pytest.raises(Refused, match=problem):
        fit_series(tests)


@pytest.mark.parametrize(
    "call",
    [
        lambda: fit_series([]),
        lambda: fit_series(FALLING[:1]),
        lambda: fit_series([*FALLING, StoredTest(-1, Trial(5, 10))]),
        lambda: fit_series([*FALLING, StoredTest(float("nan"), Trial(5, 10))]),
        lambda: fit_series([*FALLING, StoredTest(5, Trial(11, 10))]),
        lambda: fit_series([*FALLING, StoredTest(5, Trial(0, 0))]),
        lambda: fit_series(FALLING, level=1),
        lambda: fit_series(FALLING).viability_at(-1),
        lambda: fit_series(FALLING).time_to(0, Mark.OF_ALL),
    ],
)
def test_figures_that_cannot_be_are_refused(call):
    with pytest.raises(OutOfRange):
        call()
