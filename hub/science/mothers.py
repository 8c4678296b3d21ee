"""What unequal shares from the mothers make of a collection: how many mothers it really stands for.

Every function takes the seeds of each mother, one figure a mother; mothers that gave none may stand
in the list and count for nothing.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from hub.science.quantity import MOST, Estimate, Unit, within
from hub.science.sampling import miss_without_replacement
from hub.science.sources import DONORS, EFFECTIVE_NUMBER, EFFECTIVE_SIZE, HALF_SIB_CAPTURE, RAREFACTION
from hub.words import Words, say

SAMPLED_SEEDS = 1_000_000
"""The largest collection that a subsample is worked out for."""


def effective_mothers(seeds_by_mother: Sequence[float]) -> Estimate:
    """How many equally sharing mothers are as even as these: 1 / sum of squared shares.

    Between 1 and the number of mothers that gave seed; 0 when none did.
    """
    seeds = _checked(seeds_by_mother)
    total = math.fsum(seeds)
    evenness = math.fsum((count / total) ** 2 for count in seeds) if total else math.inf
    return Estimate.exact(1 / evenness, Unit.MOTHERS, EFFECTIVE_NUMBER)


def effective_size(seeds_by_mother: Sequence[int], *, correlated_paternity: float = 0.0) -> Estimate:
    """Variance effective size of the bulk of these half-sib families, in plants.

    ``correlated_paternity`` (0 to 1) is the chance that two seeds of one mother share their
    father: 0 for endless pollen donors, 1 for a single one. Ne = 1 / (2 x group coancestry).
    """
    paternity = within(correlated_paternity, say("The correlated paternity"), Unit.SHARE, 0, 1)
    seeds = _checked(seeds_by_mother)
    total = math.fsum(seeds)
    if not total:
        return Estimate.exact(0.0, Unit.PLANTS, EFFECTIVE_SIZE)
    kinship = math.fsum(count / 2 + count * (count - 1) * (1 + paternity) / 8 for count in seeds)
    return Estimate.exact(total * total / (2 * kinship), Unit.PLANTS, EFFECTIVE_SIZE)


def capture_by_families(
    frequency: float, seeds_by_mother: Sequence[int], *, selfing: float = 0.0, inbreeding: float = 0.0
) -> Estimate:
    """Probability that the seeds of these mothers, with their fathers’ pollen, hold an allele.

    Counts pollen from an endless pool, so it flatters a collection from few mothers: the warning
    says so. ``selfing`` (0 to 1) is the share of self-pollinated seed, ``inbreeding`` (0 to 1) F
    of the mothers.
    """
    p = within(frequency, say("The allele frequency"), Unit.SHARE, 0, 1)
    within(selfing, say("The selfing rate"), Unit.SHARE, 0, 1)
    within(inbreeding, say("The inbreeding coefficient"), Unit.SHARE, 0, 1)
    miss = math.prod(_miss_by_family(p, count, selfing, inbreeding) for count in _checked(seeds_by_mother))
    return Estimate.exact(1 - min(miss, 1.0), Unit.SHARE, HALF_SIB_CAPTURE, _pollen_warning())


def _miss_by_family(p: float, seeds: float, selfing: float, inbreeding: float) -> float:
    """Sum over the mother’s genotypes that can give seed without the allele, Aa and aa."""
    q = 1 - p
    one_copy = 2 * p * q * (1 - inbreeding)
    no_copy = q * q + inbreeding * p * q
    no_copy_seed_of_one = selfing / 4 + (1 - selfing) * q / 2
    no_copy_seed_of_none = selfing + (1 - selfing) * q
    miss: float = one_copy * no_copy_seed_of_one**seeds + no_copy * no_copy_seed_of_none**seeds
    return miss if seeds else 1.0


def _pollen_warning() -> Words:
    return say(
        "This counts pollen from a very large number of fathers. Real pollen comes from few, "
        "so more mothers still help."
    )


def expected_donors(seeds: int, donors: int) -> Estimate:
    """Mean number of distinct fathers among seeds, of ``donors`` (1 or more) equally likely ones."""
    count = within(seeds, say("The number of seeds"), Unit.SEEDS, 0, MOST)
    fathers = within(donors, say("The number of pollen donors"), Unit.DONORS, 1, MOST)
    return Estimate.exact(fathers * (1 - (1 - 1 / fathers) ** count), Unit.DONORS, DONORS)


def expected_mothers_in(seeds_by_mother: Sequence[int], drawn: int) -> Estimate:
    """Mean number of mothers with at least one seed in a random draw from the bulk (rarefaction)."""
    seeds = [int(count) for count in _checked(seeds_by_mother)]
    total = within(sum(seeds), say("The number of seeds"), Unit.SEEDS, 0, SAMPLED_SEEDS)
    within(drawn, say("The number of seeds drawn"), Unit.SEEDS, 0, total)
    value = math.fsum(1 - miss_without_replacement(total, count, drawn) for count in seeds)
    return Estimate.exact(value, Unit.MOTHERS, RAREFACTION)


def _checked(seeds_by_mother: Sequence[float]) -> list[float]:
    return [within(count, say("The seeds of a mother"), Unit.SEEDS, 0, MOST) for count in seeds_by_mother]
