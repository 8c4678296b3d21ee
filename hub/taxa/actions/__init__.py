"""What is done to species, standings, ecoregions, seasons and wanted lists: one function per verb."""

from hub.taxa.actions.ecoregions import add_ecoregion, set_ecoregions
from hub.taxa.actions.seasons import change_season, open_season
from hub.taxa.actions.species import add, change
from hub.taxa.actions.standings import set_standings
from hub.taxa.actions.wanted import import_wanted, keep_file, unwant, want
from hub.taxa.needs import NeedGiven
from hub.taxa.standings import StandingGiven

__all__ = [
    "NeedGiven",
    "StandingGiven",
    "add",
    "add_ecoregion",
    "change",
    "change_season",
    "import_wanted",
    "keep_file",
    "open_season",
    "set_ecoregions",
    "set_standings",
    "unwant",
    "want",
]
