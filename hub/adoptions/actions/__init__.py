"""What people do: ask for a species, decide, give it back, hold populations, get further."""

from hub.adoptions.actions.advancing import accession_population, advance, bank_population
from hub.adoptions.actions.asking import ask
from hub.adoptions.actions.deciding import (
    accept,
    accept_many,
    decline,
    decline_many,
    fulfil,
    lapse_due,
    release,
    resume,
    suspend,
)
from hub.adoptions.actions.holding import hold_population, keep_sole, let_go_population

__all__ = [
    "accept", "accept_many", "accession_population", "advance", "ask", "bank_population", "decline",
    "decline_many", "fulfil",
    "hold_population", "keep_sole", "lapse_due", "let_go_population", "release", "resume", "suspend",
]  # fmt: skip
