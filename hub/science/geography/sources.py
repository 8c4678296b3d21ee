"""The bibliography of the geography."""

from __future__ import annotations

from hub.science.quantity import Evidence, Source

GEODESIC = Source("Karney 2013, Algorithms for geodesics, on the WGS 84 ellipsoid", Evidence.PUBLISHED)
EXTENT = Source(
    "IUCN guidelines: extent of occurrence as a convex hull, never below the area of occupancy",
    Evidence.PUBLISHED,
)
OCCUPANCY = Source(
    "IUCN guidelines: area of occupancy as the area of the grid cells with records", Evidence.PUBLISHED
)
SCALE = Source(
    "IUCN guidelines, figure 4.4: area of occupancy carried from one grid to another", Evidence.PUBLISHED
)
REPRESENTED = Source(
    "Khoury et al. 2019, Ecological Indicators 98:420: sampling, geographic and ecological "
    "representativeness; the sampling score is G / H, not G / (G + H)",
    Evidence.PUBLISHED,
)
WITHIN_REACH = Source("Union of geodesic discs in an equal-area projection", Evidence.ALGEBRA)
ZONES = Source("Zones with enough accessions over all zones", Evidence.ALGEBRA)
