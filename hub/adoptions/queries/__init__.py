"""Reads: adoptions with their populations, and the species that a group may adopt."""

from hub.adoptions.queries.adoptions import (
    ORDERS,
    adoptions,
    get,
    groups_and_species,
    held,
    history,
    ours,
    populations_held,
    some,
    with_population,
)
from hub.adoptions.queries.asker import Asker, asker
from hub.adoptions.queries.species import (
    SPECIES_ORDERS,
    districts_of,
    holders,
    holders_of_season,
    needs_of_lines,
    species_to_adopt,
)

__all__ = [
    "ORDERS", "SPECIES_ORDERS", "Asker", "adoptions", "asker", "districts_of", "get", "groups_and_species",
    "held", "history", "holders", "holders_of_season", "needs_of_lines", "ours", "populations_held", "some",
    "species_to_adopt", "with_population",
]  # fmt: skip
