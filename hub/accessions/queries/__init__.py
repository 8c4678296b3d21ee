"""Reads: accessions, the book, lots and their ledger."""

from hub.accessions.queries.accessions import (
    district_of,
    get,
    names_of,
    of_submission,
    population_code,
    story_entries,
)
from hub.accessions.queries.book import BOOK_ORDERS, OWN_ORDERS, book, choices, holdings, ours
from hub.accessions.queries.lots import (
    entries_of,
    entries_of_accession,
    estimated_lots,
    get_lot,
    lots_of,
    seeds_of,
    untested,
)

__all__ = [
    "BOOK_ORDERS",
    "OWN_ORDERS",
    "book",
    "choices",
    "district_of",
    "entries_of",
    "entries_of_accession",
    "estimated_lots",
    "get",
    "get_lot",
    "holdings",
    "lots_of",
    "names_of",
    "of_submission",
    "ours",
    "population_code",
    "seeds_of",
    "story_entries",
    "untested",
]
