"""The bibliography of moisture."""

from __future__ import annotations

from hub.science.quantity import Evidence, Source

ISOTHERM = Source(
    "Cromarty, Ellis & Roberts 1982, The Design of Seed Storage Facilities: the moisture isotherm",
    Evidence.PUBLISHED,
)
WATER = Source("Water to remove, with the dry matter kept", Evidence.ALGEBRA)
GEL_MEASURED = Source(
    "Silica gel holds 13.4 % of its weight at 24 % relative humidity (one published home measurement)",
    Evidence.PUBLISHED,
)
GEL_DRY = Source("Silica gel holds about 8 % of its weight at 15 to 20 % relative humidity", Evidence.MEMORY)
BEADS = Source("Zeolite beads hold about 20 % of their weight at any humidity", Evidence.PUBLISHED)
SALTS = Source("Saturated salts after Wexler, CRC Handbook: A exp(B / T)", Evidence.PUBLISHED)
