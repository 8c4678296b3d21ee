"""The life of seed against published figures and libraries, each with its source."""

from datetime import date

import pytest
import statsmodels.api as api

from hub.science.longevity.constants import CONSTANTS
from hub.science.longevity.equation import DAYS_A_YEAR, Mark, days_per_probit, probits_to_fall, time_to
from hub.science.longevity.fitting import StoredTest, fit_series
from hub.science.longevity.next_test import (
    FIRST_TEST,
    Keeping,
    keeping_in_ageing,
    next_test_on,
    years_to_next_test,
)
from hub.science.longevity.relative import moisture_factor, rule_of_thumb, temperature_factor
from hub.science.longevity.store import Behaviour, Store
from hub.science.proportions import Trial
from hub.science.quantity import Estimate, Evidence, Unit

CHICKPEA = CONSTANTS["Cicer arietinum"]
INITIAL = 0.9167  # computed: K_i 1.3834, solved from the first of the published figures


def store(moisture, celsius):
    return Store(
        moisture_percent=moisture, temperature_c=celsius, behaviour=Behaviour.ORTHODOX, critical_percent=2
    )


# Published: Open University genebank course: chickpea at 5 °C falls to 85 % in 114, 28, 9 and 4 years.
# The decimals are computed; their floors are the published figures.
@pytest.mark.parametrize(
    ("moisture", "years", "published"), [(6, 114.0, 114), (8, 28.4, 28), (10, 9.67, 9), (12, 4.01, 4)]
)
def test_chickpea_to_eighty_five_per_cent(moisture, years, published):
    found = time_to(CHICKPEA, store(moisture, 5), INITIAL, 0.85, Mark.OF_ALL).value
    assert found == pytest.approx(years, rel=2e-3)
    assert found == pytest.approx(published, rel=0.08)


# Computed from the constants of the older papers (from memory).
@pytest.mark.parametrize(
    ("name", "moisture", "celsius", "years"),
    [
        ("Cicer arietinum", 6, 5, 328.562),
        ("Cicer arietinum", 8, 5, 81.901),
        ("Cicer arietinum", 10, 5, 27.881),
        ("Cicer arietinum", 12, 5, 11.560),
        ("Hordeum vulgare", 5, -20, 8473.9),
        ("Allium cepa", 5, -20, 412.84),
    ],
)
def test_years_per_probit(name, moisture, celsius, years):
    found = days_per_probit(CONSTANTS[name], store(moisture, celsius))
    assert found.value / DAYS_A_YEAR == pytest.approx(years, rel=4.4e-5)


# Published: Ellis & Hong 2007 (abstract).
def test_constants_of_the_twelve_crops():
    maize, potato = CONSTANTS["Zea mays"], CONSTANTS["Solanum tuberosum"]
    assert (maize.k_e, maize.c_w, maize.c_h, maize.c_q) == (9.993, 5.993, 0.0322, 0.000454)
    assert (potato.k_e, potato.c_w) == (8.037, 5.152)
    assert maize.source.evidence is Evidence.PUBLISHED


# Computed by scipy: normal deviates to fall to 85 % of the initial viability, and to 85 % of all.
@pytest.mark.parametrize(
    ("initial", "of_initial", "of_all"),
    [(0.98, 1.08766, 1.01732), (0.95, 0.77613, 0.60842), (0.90, 0.55907, 0.24512), (0.80, 0.37392, None)],
)
def test_eighty_five_per_cent_of_what(initial, of_initial, of_all):
    assert probits_to_fall(initial, 0.85, Mark.OF_INITIAL) == pytest.approx(of_initial, abs=5.1e-6)
    if of_all is not None:
        assert probits_to_fall(initial, 0.85, Mark.OF_ALL) == pytest.approx(of_all, abs=5.1e-6)


# Computed with the pair 0.0329 and 0.000478 (from memory).
@pytest.mark.parametrize(
    ("start", "end", "times"),
    [(20, 10, 2.9676), (10, 0, 2.3812), (0, -10, 1.9107), (-10, -20, 1.5332), (20, -20, 20.7014)],
)
def test_cold_by_the_pair_for_any_species(start, end, times):
    assert temperature_factor(start, end).value == pytest.approx(times, abs=5.1e-5)


# Computed with the pair 0.0322 and 0.000454 of Ellis & Hong 2007 (published).
@pytest.mark.parametrize(
    ("start", "end", "times"),
    [(20, 10, 2.8721), (10, 0, 2.3302), (0, -10, 1.8906), (-10, -20, 1.5339), (20, -20, 19.4089)],
)
def test_cold_by_the_pair_of_the_twelve_crops(start, end, times):
    wheat = CONSTANTS["Triticum aestivum"]
    warm, cold = (days_per_probit(wheat, store(8, celsius)).value for celsius in (start, end))
    assert cold / warm == pytest.approx(times, abs=5.1e-5)


# Algebra: the temperature at which the square overtakes, -C_H / (2 C_Q).
@pytest.mark.parametrize(("name", "celsius"), [("Zea mays", -35.5), ("Hordeum vulgare", -46.7)])
def test_where_the_equation_turns_over(name, celsius):
    assert CONSTANTS[name].turn_over_c == pytest.approx(celsius, abs=0.05)


# Algebra: halving moisture gives 2 to the power of C_W; (8/6)^4.829 and (12/6)^4.829 for chickpea.
def test_halving_moisture():
    factor = moisture_factor(store(12, 5), store(6, 5))
    assert (factor.low, factor.value, factor.high) == (16, 32, 64)
    sigma = {moisture: days_per_probit(CHICKPEA, store(moisture, 5)).value for moisture in (6, 8, 12)}
    assert sigma[6] / sigma[8] == pytest.approx(4.012, abs=5.1e-4)
    assert sigma[6] / sigma[12] == pytest.approx(28.42, abs=5.1e-3)


# Published: Harrington’s rule of thumb, as quoted in seed-storage courses.
def test_harringtons_rule():
    assert rule_of_thumb(store(10, 20), store(9, 20)).value == 2
    assert rule_of_thumb(store(10, 20), store(10, 15)).value == 2


# Computed: tests that lie on K_i 2 and sigma 100, as near as whole seeds of a million can.
def test_the_line_of_a_made_up_series():
    goods = (977250, 841345, 500000, 158655, 22750)
    tests = [StoredTest(100 * place, Trial(good, 1_000_000)) for place, good in enumerate(goods)]
    found = fit_series(tests)
    assert found.initial.value == pytest.approx(2, abs=1e-4)
    assert found.days_per_probit.value == pytest.approx(100, abs=1e-2)
    assert found.time_to(0.5, Mark.OF_ALL).value * DAYS_A_YEAR == pytest.approx(200, abs=1e-2)


# Computed by statsmodels from the same counts.
def test_a_series_as_statsmodels_fits_it():
    days, goods = (0, 1000, 2500, 4000), (97, 90, 71, 42)
    family = api.families.Binomial(link=api.families.links.Probit())
    counts = [(good, 100 - good) for good in goods]
    theirs = api.GLM(counts, [(1.0, day / 1000) for day in days], family=family).fit(tol=1e-12)
    ours = fit_series([StoredTest(day, Trial(good, 100)) for day, good in zip(days, goods, strict=True)])
    (low, _), (fast, slow) = theirs.conf_int()
    assert ours.initial.low == pytest.approx(low, abs=1e-6)
    assert ours.days_per_probit.value == pytest.approx(-1000 / theirs.params[1], rel=1e-6)
    assert ours.days_per_probit.low == pytest.approx(-1000 / fast, rel=1e-6)
    assert ours.days_per_probit.high == pytest.approx(-1000 / slow, rel=1e-6)


# FAO Genebank Standards 2014 (from memory): a third of the time to 85 % of the first result, 40 years
# at most. Published: IBPGR: every 10 years, or 5 for seed that keeps poorly.
def test_when_to_test_again():
    thirty = Estimate.exact(30, Unit.YEARS, CHICKPEA.source)
    assert years_to_next_test(thirty, Keeping.POORLY).value == 10
    assert years_to_next_test(Estimate.exact(300, Unit.YEARS, CHICKPEA.source), Keeping.WELL).value == 40
    assert years_to_next_test(None, Keeping.POORLY).value == 5
    assert years_to_next_test(None, Keeping.WELL).value == 10


# Published: FAO Genebank Standards 2014, 4.3.1: within 12 months of receipt.
def test_the_first_test():
    assert next_test_on(date(2031, 9, 15), FIRST_TEST) == date(2032, 9, 14)


# Published: Seglias et al. (abstract): below 13.7 days seed counts as short-lived.
@pytest.mark.parametrize(("days", "keeping"), [(13.6, Keeping.POORLY), (13.7, Keeping.WELL)])
def test_short_lived_seed(days, keeping):
    assert keeping_in_ageing(Estimate.exact(days, Unit.DAYS, CHICKPEA.source))[0] is keeping
