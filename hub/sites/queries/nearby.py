"""What lies inside what, and what lies suspiciously near: positions are checked kindly, with the distance."""

from __future__ import annotations

import math
from typing import Any
from uuid import UUID

from sqlalchemy import ColumnElement, select

from hub.db.work import Work
from hub.groups.models import District
from hub.science.distance import Position, distance_m, distance_outside_m
from hub.sites.models import Population, Site
from hub.words import Refused, Words, say

NEAR_SITES_M = 200
NEAR_POPULATIONS_M = 50
METRES_A_DEGREE = 111_000  # of latitude, nowhere less than 110,574: enough for a first sieve


def position_of(place: Site | Population) -> Position:
    return Position(latitude=place.latitude, longitude=place.longitude)


def check_inside_district(district: District, position: Position) -> None:
    """Raises Refused, with the distance, for a position outside the district."""
    miss = distance_outside_m(district.geometry, position)
    if miss > 0:
        words = say(
            "This position lies {distance} outside {district}. Is the minus of the longitude there, and is "
            "it the right district?",
            distance=ground(miss),
            district=district.name,
        )
        raise Refused(words, field="latitude")


def outside_site_m(site: Site, position: Position) -> float:
    """Metres by which a position misses a site: its outline where there is one, else its circle."""
    if site.outline:
        return distance_outside_m(site.outline, position)
    return max(0.0, distance_m(position_of(site), position) - site.radius_m)


def check_inside_site(site: Site, position: Position, *, uncertainty_m: float) -> None:
    """Raises Refused, with the distance, when even the uncertainty does not reach into the site."""
    miss = outside_site_m(site, position)
    if miss > uncertainty_m:
        words = say(
            "This position lies {distance} outside {site}. Check the figures, or make the site larger first.",
            distance=ground(miss),
            site=site.name,
        )
        raise Refused(words, field="latitude")


def ground(metres: float) -> Words:
    """A distance as people say it: metres when short, kilometres when long."""
    if metres < 1000:
        return say("{n} m", n=max(1, round(metres)))
    return say("{n} km", n=f"{metres / 1000:.1f}" if metres < 100_000 else round(metres / 1000))


def near_sites(work: Work, *, position: Position, but: UUID | None = None) -> list[tuple[Site, float]]:
    """Other sites within 200 m that this seat may see, the nearest first, with metres."""
    rows = work.db.scalars(select(Site).where(Site.id != but, box_around(Site, position, NEAR_SITES_M)))
    return nearest(rows, position, NEAR_SITES_M)


def near_populations(
    work: Work, *, taxon_id: UUID, position: Position, but: UUID | None = None
) -> list[tuple[Population, float]]:
    """Other populations of the taxon within 50 m that this seat may see, the nearest first, with metres."""
    rows = work.db.scalars(
        select(Population).where(
            Population.taxon_id == taxon_id,
            Population.id != but,
            Population.retired_at.is_(None),
            box_around(Population, position, NEAR_POPULATIONS_M),
        )
    )
    return nearest(rows, position, NEAR_POPULATIONS_M)


def nearest(rows: Any, position: Position, within_m: float) -> list[tuple[Any, float]]:
    found = [(row, distance_m(position_of(row), position)) for row in rows]
    return sorted((pair for pair in found if pair[1] <= within_m), key=lambda pair: pair[1])


def box_around(kind: type[Site] | type[Population], position: Position, metres: float) -> ColumnElement[bool]:
    """A first sieve that an index can serve: a box in degrees that surely holds the circle."""
    up = metres / METRES_A_DEGREE * 1.02
    aside = up / max(math.cos(math.radians(position.latitude)), 0.001)
    tall = kind.latitude.between(position.latitude - up, position.latitude + up)
    return tall & kind.longitude.between(position.longitude - aside, position.longitude + aside)
