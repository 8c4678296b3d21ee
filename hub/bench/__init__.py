"""``hub bench``: the hub's speed, measured in one run against bars that are ratios wherever they can be."""

from hub.bench.command import main

__all__ = ["main"]
