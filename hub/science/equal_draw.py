"""Sharing a draw out evenly over the maternal lines that have seed to give.

The level rises like water over steps: every line gives the same until it is empty. This is the
max-min fair rule (Aumann & Maschler 1985), which also makes the effective number of mothers the
largest that the lines allow.
"""

from __future__ import annotations

from collections.abc import Sequence
from random import Random

from hub.science.quantity import MOST, Unit, within
from hub.words import say


def equal_draw(available: Sequence[int], wanted: int, *, seed: int | None = None) -> tuple[int, ...]:
    """Seeds to take from each line, in the order given, adding up to ``wanted`` exactly.

    Seeds over after even sharing go one each to the first lines that still have some, or with a
    recorded ``seed`` to lines drawn by lot. Wanting more than there is raises ``OutOfRange``.
    """
    for count in available:
        within(count, say("The seeds of a line"), Unit.SEEDS, 0, MOST)
    within(wanted, say("The number of seeds wanted"), Unit.SEEDS, 0, sum(available))
    level = _level(sorted(available), wanted)
    drawn = [min(count, level) for count in available]
    able = [line for line, count in enumerate(available) if count > level]
    if seed is not None:
        Random(seed).shuffle(able)  # noqa: S311 - a lot that can be drawn again, not a secret
    for line in able[: wanted - sum(drawn)]:
        drawn[line] += 1
    return tuple(drawn)


def _level(ascending: Sequence[int], wanted: int) -> int:
    """The highest whole level that can be met by every line with that much seed."""
    left = wanted
    for emptied, count in enumerate(ascending):
        lines = len(ascending) - emptied
        if count * lines >= left:
            return left // lines
        left -= count
    return left
