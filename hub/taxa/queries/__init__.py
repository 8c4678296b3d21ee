"""Reads: species with their standings, ecoregions, seasons and the wanted list."""

from hub.taxa.queries.regions import districts, ecoregions, ecoregions_of, get_ecoregion
from hub.taxa.queries.seasons import (
    current_season,
    every_season,
    get_own_season,
    get_season,
    season_of,
    seasons,
)
from hub.taxa.queries.species import care_reading, find, get, matching, standings
from hub.taxa.queries.visitors import KEPT_BACK, is_visitor
from hub.taxa.queries.wanted import list_before_import, lists_with, needs_by_line, needs_of, wanted_of

__all__ = [
    "KEPT_BACK",
    "care_reading",
    "current_season",
    "districts",
    "ecoregions",
    "ecoregions_of",
    "every_season",
    "find",
    "get",
    "get_ecoregion",
    "get_own_season",
    "get_season",
    "is_visitor",
    "list_before_import",
    "lists_with",
    "matching",
    "needs_by_line",
    "needs_of",
    "season_of",
    "seasons",
    "standings",
    "wanted_of",
]
