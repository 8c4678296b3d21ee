"""The bibliography of the nursery."""

from __future__ import annotations

from hub.science.quantity import Evidence, Source

SOWING = Source("Smallest number with the wanted binomial chance", Evidence.ALGEBRA)
UNEVEN_BATCHES = Source("Smallest number with the wanted beta-binomial chance", Evidence.ALGEBRA)
EMPTY_CELLS = Source("Chance that no seed of a cell comes up: (1 − g)^s", Evidence.ALGEBRA)
