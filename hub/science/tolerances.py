"""How far replicates of a hundred seeds may lie apart before the test must be done again.

A table and not a formula: the published figures follow no formula exactly.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import fmean

from hub.science.quantity import Source, Unit, within
from hub.science.sources import REPLICATE_TOLERANCE, REPLICATE_TOLERANCE_LOW
from hub.words import Refused, say

READ_DOWN_TO = 70
"""Rows for lower means were not read in the source and are from memory."""


@dataclass(frozen=True)
class ToleranceTable:
    """Largest allowed range, in percentage points, by the lowest mean from which each holds."""

    from_mean: tuple[int, ...]
    points: tuple[int, ...]
    highest_mean: int

    def at(self, mean: int) -> int:
        """The tolerance at a whole mean per cent; a mean below 50 reads its mirror, 101 less it."""
        mirrored = max(mean, 101 - mean)
        within(
            mirrored, say("The mean of the replicates"), Unit.PERCENT, self.from_mean[0], self.highest_mean
        )
        return self.points[bisect_right(self.from_mean, mirrored) - 1]


TABLES = {
    4: ToleranceTable(
        from_mean=(51, 56, 67, 73, 78, 81, 84, 87, 89, 91, 93, 95, 96, 97, 98, 99),
        points=(20, 19, 18, 17, 16, 15, 14, 13, 12, 11, 10, 9, 8, 7, 6, 5),
        highest_mean=99,
    ),
    2: ToleranceTable(
        from_mean=(71, 76, 81, 84, 88, 90, 93, 95, 96),
        points=(14, 13, 12, 11, 10, 9, 8, 7, 6),
        highest_mean=97,
    ),
}


@dataclass(frozen=True)
class ReplicateAgreement:
    """Mean and range of replicates, in per cent, beside the range that the table allows."""

    mean_percent: float
    range_points: float
    tolerance_points: int
    source: Source

    @property
    def agree(self) -> bool:
        """Whether the replicates may be averaged."""
        return self.range_points <= self.tolerance_points


def compare_replicates(percents: Sequence[float]) -> ReplicateAgreement:
    """Compare two or four replicates of 100 seeds each, given as per cent (0 to 100).

    The mean is rounded to a whole per cent. Means beyond the table raise ``OutOfRange``; other
    numbers of replicates, for which no table is published here, are refused.
    """
    table = TABLES.get(len(percents))
    if table is None:
        raise Refused(say("Replicates are compared in twos or fours of a hundred seeds each."))
    for percent in percents:
        within(percent, say("The result of a replicate"), Unit.PERCENT, 0, 100)
    mean = math.floor(fmean(percents) + 0.5)
    read = max(mean, 101 - mean) >= READ_DOWN_TO
    return ReplicateAgreement(
        mean_percent=fmean(percents),
        range_points=max(percents) - min(percents),
        tolerance_points=table.at(mean),
        source=REPLICATE_TOLERANCE if read else REPLICATE_TOLERANCE_LOW,
    )
