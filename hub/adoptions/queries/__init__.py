"""Reads: adoptions with their populations, and the species that a group may adopt."""

from hub.adoptions.queries.adoptions import (
    ORDERS,
    adoptions,
    get,
    held,
    history,
    in_hand,
    ours,
    populations_held,
    with_population,
)
from hub.adoptions.queries.species import (
    SPECIES_ORDERS,
    holders,
    holders_of_season,
    needs_of_lines,
    reason_against,
    species_to_adopt,
)

__all__ = [
    "ORDERS", "SPECIES_ORDERS", "adoptions", "get", "held", "history", "holders", "holders_of_season",
    "in_hand", "needs_of_lines", "ours", "populations_held", "reason_against", "species_to_adopt",
    "with_population",
]  # fmt: skip
