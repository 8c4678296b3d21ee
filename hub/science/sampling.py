"""How likely a sample of mothers, or of gametes, is to hold the alleles of its population.

Frequencies and probabilities are shares from 0 to 1. Unless a function says otherwise mothers are
diploid and drawn at random, and the population is large beside the sample.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import combinations

from hub.science.quantity import MOST, Estimate, Unit, within
from hub.science.sources import ALLELES, SEVERAL_ALLELES
from hub.words import say

RAREST = 1e-6
"""The rarest allele asked about; below it no sample that anyone can gather answers."""

SURE = 0.999999
"""The surest target; certainty itself would need endless mothers."""

FINITE_POPULATION = 100_000
"""Up to this many plants a population is worth treating as finite."""

MANY_ALLELES = 12
"""Beyond this many alleles the exact joint probability costs more than it tells."""


def inbreeding_from_selfing(selfing: float) -> float:
    """Inbreeding coefficient F at equilibrium for a selfing rate s (0 to 1): F = s / (2 - s).

    Agrees with the variance effective number n (1 - s/2) of Gale & Lawrence 1984.
    """
    share = within(selfing, say("The selfing rate"), Unit.SHARE, 0, 1)
    return share / (2 - share)


def capture_by_gametes(frequency: float, gametes: float) -> Estimate:
    """Probability that independent gametes (0 or more) hold at least one copy of an allele."""
    miss = 1 - _frequency(frequency)
    count = within(gametes, say("The number of gametes"), Unit.GAMETES, 0, MOST)
    return Estimate.exact(1 - miss**count, Unit.SHARE, ALLELES)


def capture_by_mothers(frequency: float, mothers: float, *, inbreeding: float = 0.0) -> Estimate:
    """Probability that mothers (0 or more; an effective number will do) carry an allele.

    Inbreeding is F of the mothers, -1 to 1: 0 for outcrossed, 1 for fully selfed plants.
    Exact at every F, unlike the textbook’s 2n / (1 + F) gametes.
    """
    count = within(mothers, say("The number of mothers"), Unit.MOTHERS, 0, MOST)
    return Estimate.exact(1 - miss_by_one_mother(frequency, inbreeding) ** count, Unit.SHARE, ALLELES)


def miss_by_one_mother(frequency: float, inbreeding: float = 0.0) -> float:
    """Probability that one diploid mother lacks the allele: q² + F p q, never below 0.

    A negative F (an excess of heterozygotes) is taken only as far as the frequency allows.
    """
    p = _frequency(frequency)
    f = within(inbreeding, say("The inbreeding coefficient"), Unit.SHARE, -1, 1)
    return max((1 - p) * (1 - p + f * p), 0.0)


def capture_in_small_population(frequency: float, mothers: int, population: int) -> Estimate:
    """Probability that some of a small population’s plants, none twice, carry an allele (F = 0).

    The allele has round(2 M p) copies among M plants, at least one, and a warning says so when
    the frequency asked for would be less than one copy.
    """
    plants = within(population, say("The population"), Unit.PLANTS, 1, FINITE_POPULATION)
    count = within(mothers, say("The number of mothers"), Unit.MOTHERS, 0, plants)
    expected = 2 * plants * _frequency(frequency)
    copies = max(math.floor(expected + 0.5), 1)
    warning = say("So few plants cannot hold an allele that rare; the figure is for a single copy.")
    value = 1 - miss_without_replacement(2 * plants, copies, 2 * count)
    return Estimate.exact(value, Unit.SHARE, ALLELES, *([warning] if expected < 1 else []))


def miss_without_replacement(total: int, marked: int, drawn: int) -> float:
    """Probability that ``drawn`` of ``total`` things hold none of the ``marked`` ones.

    C(total - marked, drawn) / C(total, drawn), as a product that neither overflows nor cancels;
    a factor of it is 0 where so many cannot all miss.
    """
    fewer, more = sorted((marked, drawn))
    return math.prod((total - more - i) / (total - i) for i in range(fewer))


def gametes_needed(frequency: float, wanted: float) -> int:
    """Fewest independent gametes that hold an allele with the wanted probability.

    Frequency from 0.000001 to 1, probability below 1. Source: ``sources.ALLELES``.
    """
    return _draws_needed(1 - _frequency(frequency, RAREST), wanted)


def mothers_needed(frequency: float, wanted: float, *, inbreeding: float = 0.0) -> int:
    """Fewest mothers that carry an allele with the wanted probability, rounded up.

    Frequency from 0.000001 to 1, probability below 1, F from -1 to 1. Source: ``sources.ALLELES``.
    """
    _frequency(frequency, RAREST)
    return _draws_needed(miss_by_one_mother(frequency, inbreeding), wanted)


def _draws_needed(miss: float, wanted: float) -> int:
    """Fewest draws of which all miss with probability at most 1 - wanted; one when none can miss."""
    target = within(wanted, say("The wanted probability"), Unit.SHARE, 0, SURE)
    if miss == 0:
        return 1 if target > 0 else 0
    return math.ceil(math.log1p(-target) / math.log(miss) - 1e-9)


def gametes_for_all(frequency: float, *, alleles: int, loci: int, wanted: float) -> int:
    """Gametes that hold every allele of every locus with one joint probability, rounded up.

    Each of ``loci`` independent loci has ``alleles`` - 1 rare alleles at ``frequency`` and one
    common one. Never below the exact need, since it bounds the chance of any loss by their sum.
    Published by Crossa et al. 1993, whose tables round to the nearest.
    """
    p = within(frequency, say("The allele frequency"), Unit.SHARE, RAREST, 0.5)
    rare = within(alleles, say("The number of alleles"), Unit.ALLELES, 2, 1000) - 1
    within(loci, say("The number of loci"), Unit.LOCI, 1, MOST)
    within(wanted, say("The wanted probability"), Unit.SHARE, RAREST, SURE)
    loss_per_locus = -math.expm1(math.log(wanted) / loci)
    return math.ceil((math.log(loss_per_locus) - math.log(rare)) / math.log1p(-p) - 1e-9)


def capture_of_all(frequencies: Sequence[float], gametes: int) -> Estimate:
    """Exact probability that gametes hold every one of up to twelve alleles of one locus.

    By inclusion and exclusion; the frequencies (each 0 to 1) add up to 1 at most.
    """
    shares = _alleles_of_one_locus(frequencies)
    count = within(gametes, say("The number of gametes"), Unit.GAMETES, 0, MOST)
    terms = (
        (-1) ** size * max(1 - math.fsum(absent), 0.0) ** count
        for size in range(len(shares) + 1)
        for absent in combinations(shares, size)
    )
    return Estimate.exact(min(max(math.fsum(terms), 0.0), 1.0), Unit.SHARE, SEVERAL_ALLELES)


def expected_alleles(frequencies: Sequence[float], gametes: int) -> Estimate:
    """Mean number of the alleles of one locus that gametes hold: the sum of their probabilities."""
    shares = _alleles_of_one_locus(frequencies)
    value = math.fsum(capture_by_gametes(share, gametes).value for share in shares)
    return Estimate.exact(value, Unit.ALLELES, SEVERAL_ALLELES)


def _alleles_of_one_locus(frequencies: Sequence[float]) -> list[float]:
    within(len(frequencies), say("The number of alleles"), Unit.ALLELES, 1, MANY_ALLELES)
    shares = [_frequency(frequency) for frequency in frequencies]
    within(math.fsum(shares), say("The sum of the allele frequencies"), Unit.SHARE, 0, 1 + 1e-9)
    return shares


def _frequency(frequency: float, lowest: float = 0.0) -> float:
    return within(frequency, say("The allele frequency"), Unit.SHARE, lowest, 1)
