"""The pages of sites, their papers and their plants, a file for each."""

from hub.sites.pages import (
    censuses,
    letters,
    permissions,
    permits,
    populations,
    salvage,
    shares,
    site_list,
    sites,
)
from hub.sites.pages.blueprint import pages

__all__ = [
    "censuses", "letters", "pages", "permissions", "permits", "populations", "salvage", "shares",
    "site_list", "sites",
]  # fmt: skip
