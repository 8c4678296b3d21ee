"""Reads of the region's progress: from the running counts alone, so that no page grows with submissions."""

from hub.progress.queries.board import ORDER_NAMES, Board
from hub.progress.queries.cells import Cell, cells
from hub.progress.queries.districts import Counts, banked_species, by_district
from hub.progress.queries.stalled import STALLED_ORDERS, districts_of_region, stalled
from hub.progress.queries.years import RegionYear, regions, year_of

__all__ = [
    "ORDER_NAMES",
    "STALLED_ORDERS",
    "Board",
    "Cell",
    "Counts",
    "RegionYear",
    "banked_species",
    "by_district",
    "cells",
    "districts_of_region",
    "regions",
    "stalled",
    "year_of",
]
