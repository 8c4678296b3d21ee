"""Sampling figures against published ones; each row names its source, or says that there is none.

Computed checks name the library that gave them, so that two ways of reckoning agree.
"""

import pytest
from scipy import stats

from hub.science.equal_draw import equal_draw
from hub.science.mothers import (
    capture_by_families,
    effective_mothers,
    effective_size,
    expected_donors,
    expected_mothers_in,
)
from hub.science.sampling import (
    capture_by_gametes,
    capture_by_mothers,
    capture_of_all,
    expected_alleles,
    gametes_for_all,
    gametes_needed,
    inbreeding_from_selfing,
    miss_by_one_mother,
    mothers_needed,
)

TEN_UNEVEN_FAMILIES = [500, 200, 100, 100, 50, 20, 10, 10, 5, 5]


# Published: US Bureau of Land Management, technical protocol, section 8 (2012): 59 gametes, 30
# outbreeding or 59 selfing plants hold 95 % of the alleles at a frequency of 5 %.
def test_fifty_nine_gametes_thirty_outbreeders_fifty_nine_selfers():
    assert gametes_needed(0.05, 0.95) == 59
    assert mothers_needed(0.05, 0.95, inbreeding=0) == 30
    assert mothers_needed(0.05, 0.95, inbreeding=1) == 59


# Computed: scipy.stats.binom.
@pytest.mark.parametrize("gametes", [58, 59])
def test_the_chance_at_fifty_nine_gametes(gametes):
    assert capture_by_gametes(0.05, gametes).value == pytest.approx(stats.binom.sf(0, gametes, 0.05))


# Computed from ln(1 - P) / ln(1 - p).
@pytest.mark.parametrize(("wanted", "gametes"), [(0.90, 45), (0.99, 90)])
def test_gametes_for_other_probabilities(wanted, gametes):
    assert gametes_needed(0.05, wanted) == gametes


# Published: Lawrence et al. 1995 recommend 172 plants; the losses are computed.
def test_a_hundred_and_seventy_two_plants_lose_next_to_nothing():
    assert miss_by_one_mother(0.05, 1) ** 172 == pytest.approx(1.474e-4, rel=1e-3)
    assert miss_by_one_mother(0.05, 0) ** 172 == pytest.approx(2.17e-8, rel=2e-3)


# Published: Gale & Lawrence 1984, Ne(v) = n (1 - s/2), as given by Vencovsky & Crossa 1999.
@pytest.mark.parametrize(("selfing", "of_one_plant"), [(0, 1), (0.3, 0.85), (1, 0.5)])
def test_variance_effective_size_under_selfing(selfing, of_one_plant):
    assert 1 / (1 + inbreeding_from_selfing(selfing)) == pytest.approx(of_one_plant)


# Published: Crossa et al. 1993, abstract: 89 to 110 plants for 10 loci, 134 to 155 for 100 loci.
# The abstract rounds to the nearest (155.08 for the last), the program always up.
@pytest.mark.parametrize(
    ("loci", "alleles", "published"), [(10, 2, 89), (10, 4, 110), (100, 2, 134), (100, 4, 155)]
)
def test_plants_for_many_loci(loci, alleles, published):
    needed = gametes_for_all(0.05, alleles=alleles, loci=loci, wanted=0.9)
    assert needed - 1 <= published <= needed


# Published: Crossa et al. 1993, abstract: "75 additional" for 100 loci beside 10, at 3 %.
def test_seventy_five_more_for_ten_times_the_loci():
    ten, hundred = (gametes_for_all(0.03, alleles=k, loci=n, wanted=0.9) for k, n in ((4, 10), (4, 100)))
    assert hundred - ten == pytest.approx(75, abs=1)


# Computed by inclusion and exclusion, and by simulation (.9046).
def test_three_alleles_of_one_locus_together():
    assert capture_of_all([0.05, 0.05, 0.90], 59).value == pytest.approx(0.905008, abs=5e-7)
    assert expected_alleles([0.05, 0.05, 0.90], 59).value == pytest.approx(1 + 2 * 0.951505, abs=2e-6)


# Computed from the segregation of half-sib families.
@pytest.mark.parametrize(
    ("mothers", "seeds", "frequency", "selfing", "inbreeding", "chance"),
    [
        (1, 1, 0.05, 0, 0, 0.0975),
        (30, 1, 0.05, 0, 0, 0.953930),
        (50, 10, 0.01, 0, 0, 0.997593),
        (59, 7, 0.05, 1, 1, 0.951505),
    ],
)
def test_mothers_and_their_seeds(mothers, seeds, frequency, selfing, inbreeding, chance):
    figure = capture_by_families(frequency, [seeds] * mothers, selfing=selfing, inbreeding=inbreeding)
    assert figure.value == pytest.approx(chance, abs=6e-7)


# Computed from group coancestry; a drift simulation gave 61.30 and 12.70 (closed form from memory).
@pytest.mark.parametrize(
    ("families", "paternity", "size"),
    [
        ([1], 0, 1.0),
        ([1] * 30, 0, 30),
        ([10] * 50, 0, 153.85),
        ([10] * 20, 0, 61.538),
        ([10] * 20, 0.2, 54.054),
        ([10] * 20, 1, 36.364),
        (TEN_UNEVEN_FAMILIES, 0, 12.652),
    ],
)
def test_effective_size_of_a_bulk(families, paternity, size):
    assert effective_size(families, correlated_paternity=paternity).value == pytest.approx(size, abs=0.004)


# Published formula: Chief Forester’s Standards for Seed Use (British Columbia), appendix 7. The
# value is computed; scikit-bio’s inverse Simpson index gives the same.
def test_effective_number_of_mothers():
    assert effective_mothers(TEN_UNEVEN_FAMILIES).value == pytest.approx(3.193358, abs=5e-7)


# Computed: expected distinct draws.
@pytest.mark.parametrize(("donors", "seeds", "distinct"), [(10, 20, 8.784), (5, 10, 4.463)])
def test_distinct_pollen_donors(donors, seeds, distinct):
    assert expected_donors(seeds, donors).value == pytest.approx(distinct, abs=5e-4)


# Formula: Hurlbert 1971 (from memory). Computed; a simulation gave 5.456 for 20 drawn.
@pytest.mark.parametrize(("drawn", "mothers"), [(1, 1), (20, 5.449773), (50, 6.850043), (100, 8)])
def test_rarefaction(drawn, mothers):
    counts = [40, 25, 15, 10, 5, 3, 1, 1]
    assert expected_mothers_in(counts, drawn).value == pytest.approx(mothers, abs=5e-7)


# From memory: the textbook case of constrained equal awards (100, 200, 300 share 300). The others
# are computed; the first is the least sum of squares over all whole splits.
@pytest.mark.parametrize(
    ("available", "wanted", "drawn"),
    [
        ([10, 20, 30, 40], 60, (10, 17, 17, 16)),
        ([100, 200, 300], 300, (100, 100, 100)),
        ([100, 200, 300], 200, (67, 67, 66)),
    ],
)
def test_even_draws(available, wanted, drawn):
    assert equal_draw(available, wanted) == drawn


# Computed: what the fifty mothers that most guidance asks for hold (scipy.stats.binom).
def test_what_fifty_mothers_hold():
    assert capture_by_mothers(0.05, 50).value == pytest.approx(stats.binom.sf(0, 100, 0.05))
    assert capture_by_mothers(0.05, 50, inbreeding=1).value == pytest.approx(stats.binom.sf(0, 50, 0.05))
