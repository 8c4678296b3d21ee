"""The order of many species by their scores, and how far it hangs on the weights."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from hub.science.priorities.score import Known, checked_known, checked_weights
from hub.science.quantity import Unit, within
from hub.words import Refused, say

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Ranks = NDArray[np.int64]

FACTORS = (0.5, 2.0)
"""Each weight is halved and doubled in turn (our own default)."""

MOST_SPECIES = 100_000

DIGITS = 12
"""Scores that agree so far are equal; beyond lies the dust of reckoning."""


@dataclass(frozen=True)
class Standing:
    """One species, its rank (1 is first, equals share the better), and its best and worst by any weights."""

    species: str
    score: float
    rank: int
    best: int
    worst: int


@dataclass(frozen=True)
class Change:
    """One weight changed: Kendall’s tau of the new ranks with the old, 1 when nothing changes places."""

    criterion: str
    factor: float
    agreement: float


@dataclass(frozen=True)
class Ranking:
    """Species from the first to the last, equals by name; how each change agrees; species without a score."""

    standings: tuple[Standing, ...]
    changes: tuple[Change, ...]
    unknown: tuple[str, ...]


def rank_species(species: Mapping[str, Known], weights: Mapping[str, float]) -> Ranking:
    """Rank 1 to 100,000 species by what ``priority_score`` gives, under the weights and each changed one.

    Raises ``Refused`` when nothing is known of any.
    """
    import numpy as np
    from scipy.stats import rankdata

    within(len(species), say("The number of species"), Unit.SPECIES, 1, MOST_SPECIES)
    shares = checked_weights(weights)
    known = {name: checked_known(species[name], shares) for name in sorted(species)}
    scored = [name for name, values in known.items() if any(shares[criterion] for criterion in values)]
    if not scored:
        raise Refused(say("Nothing that counts is known of any of these species."))
    values = np.array([[known[name].get(criterion, np.nan) for criterion in shares] for name in scored])
    changes = [(criterion, factor) for criterion in shares for factor in FACTORS]
    sets = [shares, *({**shares, name: shares[name] * factor} for name, factor in changes)]
    scores = _scores(values, np.array([list(chosen.values()) for chosen in sets]))
    ranks = rankdata(-scores, method="min", axis=0).astype(np.int64)
    effects = (
        Change(*change, _agreement(ranks[:, 0], changed))
        for change, changed in zip(changes, ranks.T[1:], strict=True)
    )
    unknown = tuple(name for name in known if name not in set(scored))
    return Ranking(_standings(scored, scores[:, 0], ranks), tuple(effects), unknown)


def _scores(values: Array, weights: Array) -> Array:
    """Weighted means of the known values, one row a species, one column a set of weights."""
    import numpy as np

    known = ~np.isnan(values)
    means: Array = (np.where(known, values, 0) @ weights.T) / (known @ weights.T)
    return means.round(DIGITS)


def _standings(names: list[str], scores: Array, ranks: Ranks) -> tuple[Standing, ...]:
    columns = (scores, ranks[:, 0], ranks.min(axis=1), ranks.max(axis=1))
    rows = zip(names, *(column.tolist() for column in columns), strict=True)
    return tuple(sorted((Standing(*row) for row in rows), key=lambda standing: standing.rank))


def _agreement(ranks: Ranks, others: Ranks) -> float:
    """Kendall’s tau-b; where all are equal in one of the two it has no meaning, and 0 is given."""
    import numpy as np
    from scipy.stats import kendalltau

    if (ranks == others).all():
        return 1.0
    return float(np.nan_to_num(kendalltau(ranks, others).statistic))
