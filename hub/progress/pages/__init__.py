"""The pages of progress: a group's own season, and the region's."""

from hub.progress.pages import our_season, public, region, stalled
from hub.progress.pages.blueprint import pages

__all__ = ["our_season", "pages", "public", "region", "stalled"]
