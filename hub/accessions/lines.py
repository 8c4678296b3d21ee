"""How a collection becomes lots: one per maternal line, or one bulk. Pure; lines never merge."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from hub.accessions.rules import LotKind
from hub.vetting.collection import Collection, Handling, Tally
from hub.words import Refused, say

BULK_LABEL = "B"
NO_MOTHER = say("No mother plant gave seed by its tallies, so there is no lot to make. Send it back first.")


@dataclass(frozen=True)
class LotPlan:
    """One lot to be made; ``seeds`` is the estimate it opens with."""

    label: str
    kind: LotKind
    mother: str
    seeds: int


def lots_for(collection: Collection) -> list[LotPlan]:
    """The lots of a collection. Their seeds add up to the collection's total exactly.

    Raises Refused for seed kept by mother of which no mother gave any.
    """
    if collection.handling is Handling.BULK:
        return [LotPlan(BULK_LABEL, LotKind.BULK, "", collection.total_seeds)]
    mothers = [tally for tally in collection.tallies if tally.fruits_taken or tally.seeds]
    if not mothers:
        raise Refused(NO_MOTHER)
    shares = shared_out(collection.total_seeds, [weight(tally, collection) for tally in mothers])
    digits = max(2, len(str(len(mothers))))  # so that labels sort as they count
    return [
        LotPlan(f"{place:0{digits}d}", LotKind.MATERNAL_LINE, tally.flag, seeds)
        for place, (tally, seeds) in enumerate(zip(mothers, shares, strict=True), start=1)
    ]


def weight(tally: Tally, collection: Collection) -> float:
    """What a mother's share of the total goes by: her own seeds, or else her fruits."""
    if tally.seeds is not None:
        return float(tally.seeds)
    return tally.fruits_taken * (collection.seeds_per_fruit or mean_seeds(collection))


def mean_seeds(collection: Collection) -> float:
    """Seeds a fruit over the mothers whose seeds were counted; one where none were."""
    counted = [tally for tally in collection.tallies if tally.seeds is not None and tally.fruits_taken]
    fruits = sum(tally.fruits_taken for tally in counted)
    seeds = sum(tally.seeds or 0 for tally in counted)
    return seeds / fruits if fruits and seeds else 1.0


def shared_out(total: int, weights: Sequence[float]) -> list[int]:
    """Whole numbers in proportion to the weights, adding up to ``total``; largest remainders round up."""
    whole = sum(weights)
    exact = [total * each / whole for each in weights] if whole else [total / len(weights)] * len(weights)
    shares = [int(each) for each in exact]
    by_remainder = sorted(range(len(exact)), key=lambda at: (shares[at] - exact[at], at))
    for at in by_remainder[: total - sum(shares)]:
        shares[at] += 1
    return shares
