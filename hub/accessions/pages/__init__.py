"""The pages of accessions: the book, one accession, its lots and labels, and what a group sees of it."""

from hub.accessions.pages import accession, approving, book, labels, lots, moving, ours, places
from hub.accessions.pages.blueprint import pages

__all__ = ["accession", "approving", "book", "labels", "lots", "moving", "ours", "pages", "places"]
