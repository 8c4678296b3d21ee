"""The pages of adoptions: find a species, one adoption, and the curator's list."""

from hub.adoptions.pages import adoption, adoption_list, decide, find, populations
from hub.adoptions.pages.blueprint import pages

__all__ = ["adoption", "adoption_list", "decide", "find", "pages", "populations"]
