"""The bibliography of priorities, coverage and matching."""

from __future__ import annotations

from hub.science.quantity import Evidence, Source

SCORE = Source(
    "Our own weighted mean of shares from 0 to 1; points added openly, as compared by Brehm et al. 2010, "
    "Biodiversity and Conservation 19:2715",
    Evidence.OWN,
)
CENTROID = Source(
    "Rank-order centroid weights, Barron & Barrett 1996, Management Science 42:1515", Evidence.MEMORY
)
COVERING = Source("Maximal covering, Church & ReVelle 1974, solved exactly (HiGHS)", Evidence.MEMORY)
SET_COVER = Source("Cheapest set cover, Fulkerson et al. 1974, solved exactly (HiGHS)", Evidence.PUBLISHED)
