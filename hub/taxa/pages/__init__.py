"""The pages of species, seasons and the wanted list, a file for each."""

from hub.taxa.pages import (
    ecoregions,
    imports,
    lines,
    seasons,
    show,
    species_forms,
    species_list,
    standings,
    wanted,
)
from hub.taxa.pages.blueprint import pages

__all__ = [
    "ecoregions",
    "imports",
    "lines",
    "pages",
    "seasons",
    "show",
    "species_forms",
    "species_list",
    "standings",
    "wanted",
]
