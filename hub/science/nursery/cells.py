"""How many cells of a tray stay empty."""

from __future__ import annotations

import math

from hub.science.nursery.sources import EMPTY_CELLS
from hub.science.quantity import Estimate, Unit, within
from hub.words import say

MOST_IN_CELL = 1000


def empty_cells(germinating_share: float, seeds_in_cell: int) -> Estimate:
    """Share (0 to 1) of cells in which nothing comes up, with 1 to 1,000 seeds a cell."""
    share = within(germinating_share, say("The share that germinates"), Unit.SHARE, 0, 1)
    seeds = within(seeds_in_cell, say("The seeds in a cell"), Unit.SEEDS, 1, MOST_IN_CELL)
    return Estimate.exact((1 - share) ** seeds, Unit.SHARE, EMPTY_CELLS)


def seeds_in_each_cell(germinating_share: float, most_empty: float) -> Estimate:
    """Fewest seeds a cell so that no more than a share of the cells (0.0001 to 1) stays empty."""
    share = within(germinating_share, say("The share that germinates"), Unit.SHARE, 0.001, 1)
    empty = within(most_empty, say("The share of empty cells"), Unit.SHARE, 0.0001, 1)
    if share == 1:
        return Estimate.exact(1, Unit.SEEDS, EMPTY_CELLS)
    needed = max(math.ceil(round(math.log(empty) / math.log1p(-share), 9)), 1)
    return Estimate.exact(needed, Unit.SEEDS, EMPTY_CELLS)
