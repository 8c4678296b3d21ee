"""What a germination test writes down: how many seeds were sown, and how many came up by which day."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import accumulate, pairwise

from hub.science.proportions import LARGEST_TEST, Trial
from hub.science.quantity import Unit, within
from hub.words import Refused, say

LONGEST_TEST_DAYS = 3650
SHORTEST_DAYS = 1e-3
MOST_COUNTS = 1000


@dataclass(frozen=True)
class GerminationTest:
    """Days of the counts since sowing, and the seeds that newly came up at each.

    ``removed`` seeds were empty, or rotted and were taken out: they are not counted as sown.
    Raises ``OutOfRange`` or ``Refused`` for what no test can hold.
    """

    days: tuple[float, ...]
    germinated: tuple[int, ...]
    sown: int
    removed: int = 0

    def __post_init__(self) -> None:
        """Check each figure, then that they fit together."""
        within(len(self.days), say("The number of counts"), Unit.VALUES, 1, MOST_COUNTS)
        for day in self.days:
            within(day, say("The day of a count"), Unit.DAYS, SHORTEST_DAYS, LONGEST_TEST_DAYS)
        if len(self.days) != len(self.germinated):
            raise Refused(say("Each day of a count needs its number of seedlings, and each number its day."))
        if any(later <= earlier for earlier, later in pairwise(self.days)):
            raise Refused(say("The days of the counts must go up, and no day may stand twice."))
        within(self.sown, say("The seeds sown"), Unit.SEEDS, 1, LARGEST_TEST)
        within(self.removed, say("The seeds taken out"), Unit.SEEDS, 0, self.sown - 1)
        for count in self.germinated:
            within(count, say("The seeds that came up"), Unit.SEEDS, 0, LARGEST_TEST)
        within(self.total, say("All seeds that came up"), Unit.SEEDS, 0, self.sown - self.removed)

    @property
    def total(self) -> int:
        """Seeds that came up in all."""
        return sum(self.germinated)

    @property
    def result(self) -> Trial:
        """Seeds that came up of those that could."""
        return Trial(self.total, self.sown - self.removed)

    @property
    def intervals(self) -> Iterator[tuple[float, float, int]]:
        """From which day, to which day, how many came up: in order, and only where some did."""
        spans = pairwise((0.0, *self.days))
        return (
            (start, end, count) for (start, end), count in zip(spans, self.germinated, strict=True) if count
        )

    @property
    def cumulative(self) -> tuple[int, ...]:
        """Seeds that had come up by each count, without the counts at which none did."""
        return tuple(accumulate(count for _, _, count in self.intervals))
