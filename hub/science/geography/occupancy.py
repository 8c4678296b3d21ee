"""How much ground a species is found on: the area of occupancy, by grid cells."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from hub.science.distance import Position
from hub.science.geography.plane import Plane, degrees_of
from hub.science.geography.sources import OCCUPANCY, SCALE
from hub.science.quantity import MOST, Estimate, Unit, within
from hub.words import Refused, say

if TYPE_CHECKING:
    from hub.science.geography.plane import Array

REFERENCE_CELL_KM = 2.0
"""The side of a cell to which the published limits of rarity belong."""

MOST_ORIGINS = 40
"""Origins tried along each side of a cell: all that differ for as many records, a selection for more."""


@dataclass(frozen=True)
class Occupancy:
    """Area on the fixed grid and its cells, and the least area on any grid shifted against it, in km²."""

    fixed: Estimate
    least: Estimate
    cells: int


def area_of_occupancy(
    positions: Sequence[Position], *, grid_centre: Position, cell_km: float = REFERENCE_CELL_KM
) -> Occupancy:
    """Area of the square cells (0.1 to 100 km) that hold any of 1 to 10,000 records.

    The fixed grid starts from ``grid_centre``, one for a whole region so that its species compare.
    Where a grid starts can change a species’ category, so the least over shifted origins is given
    beside it: exact up to 40 records, and of 1,600 origins beyond.
    """
    cell = _cell_side(cell_km)
    fixed, fewest = cells_touched(Plane(grid_centre).points(degrees_of(positions)), cell)
    unusual = say("Published limits of rarity are meant for cells of 2 km.")
    warnings = [unusual] if cell != REFERENCE_CELL_KM else []
    on_fixed_grid, at_least = (
        Estimate.exact(cells * cell**2, Unit.SQUARE_KILOMETRES, OCCUPANCY, *warnings)
        for cells in (fixed, fewest)
    )
    return Occupancy(on_fixed_grid, at_least, fixed)


def cells_touched(points_km: Array, cell_km: float) -> tuple[int, int]:
    """Cells that hold points (n × 2, km): on the grid from (0, 0), and the fewest over shifted grids.

    The cells change only where an edge passes a point, so only shifts onto a point need trying; the
    first of these is the fixed grid itself.
    """
    import numpy as np

    whole, part = np.divmod(points_km / cell_km, 1)
    choices = []
    for along, beyond in zip(whole.T, part.T, strict=True):
        shifts = np.unique(beyond)
        tried = shifts[:: math.ceil(shifts.size / MOST_ORIGINS)]
        choices.append([along - (beyond < shift) for shift in tried])
    columns, rows = choices
    counts = [np.unique(column + 1j * row).size for column in columns for row in rows]
    return counts[0], min(counts)


def rescaled_occupancy(
    occupied_km2: float, *, from_cell_km: float, to_cell_km: float = REFERENCE_CELL_KM, exponent: float
) -> Estimate:
    """Area of occupancy on finer cells from that on coarser ones: A × (finer / coarser cell area)^C.

    C runs from 0 (every finer cell within an occupied one is occupied) to 1 (only one of them is).
    """
    occupied = within(occupied_km2, say("The area of occupancy"), Unit.SQUARE_KILOMETRES, 0, MOST)
    steepness = within(exponent, say("The exponent of scale"), Unit.NUMBER, 0, 1)
    ratio = _finer_to_coarser(to_cell_km, from_cell_km)
    return Estimate.exact(occupied * ratio**steepness, Unit.SQUARE_KILOMETRES, SCALE)


def scale_exponent(
    coarse_km2: float, fine_km2: float, *, coarse_cell_km: float, fine_cell_km: float
) -> Estimate:
    """The exponent C of one species, from its areas of occupancy on two grids (above 0 km²).

    Raises ``Refused`` for areas that no species can have on these grids.
    """
    coarse, fine = (
        within(area, say("The area of occupancy"), Unit.SQUARE_KILOMETRES, 1e-6, MOST)
        for area in (coarse_km2, fine_km2)
    )
    ratio = _finer_to_coarser(fine_cell_km, coarse_cell_km)
    if not ratio * (1 - 1e-9) <= fine / coarse <= 1:
        raise Refused(say("Each coarser cell holds at least one finer cell, and no more than fit into it."))
    return Estimate.exact(min(math.log(fine / coarse) / math.log(ratio), 1.0), Unit.NUMBER, SCALE)


def _finer_to_coarser(finer_km: float, coarser_km: float) -> float:
    finer, coarser = _cell_side(finer_km), _cell_side(coarser_km)
    if finer >= coarser:
        raise Refused(say("The cells to reckon for must be smaller than the cells that were counted."))
    return (finer / coarser) ** 2


def _cell_side(km: float) -> float:
    return within(km, say("The side of a cell"), Unit.KILOMETRES, 0.1, 100)
