"""The pages of progress: a group's own season, and the region's."""

from hub.progress.pages import our_season
from hub.progress.pages.blueprint import pages

__all__ = ["our_season", "pages"]
