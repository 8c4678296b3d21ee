"""How well the accessions of a species represent it: by number, over its range, over its ecoregions."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from hub.science.distance import Position
from hub.science.geography.plane import Plane, corner_degrees, degrees_of, middle
from hub.science.geography.reach import REACH_KM, checked_reach, discs
from hub.science.geography.sources import REPRESENTED
from hub.science.quantity import MOST, Estimate, Unit, within
from hub.words import Refused, Words, say, say_n

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

    from hub.science.geography.plane import Array

    Ecoregions = Mapping[str, BaseGeometry]

COMPREHENSIVE = 50.0
"""A final score from which a species counts as comprehensively conserved (published)."""

LEAST_KM2 = 1e-6
"""Of an overlap; less is where two outlines merely touch, a square metre at most."""


@dataclass(frozen=True)
class Representativeness:
    """Four scores from 0 to 100, the final one their mean; the ecoregions of the range by name."""

    sampling: Estimate
    geographic: Estimate
    ecological: Estimate
    final: Estimate
    reached: tuple[str, ...]
    missed: tuple[str, ...]

    @property
    def comprehensive(self) -> bool:
        """Whether the species counts as comprehensively conserved."""
        return self.final.value >= COMPREHENSIVE


def representativeness(
    native_range: Mapping[str, Any],
    ecoregions: Mapping[str, Mapping[str, Any]],
    collected: Sequence[Position | None],
    *,
    records: int,
    reach_km: float = REACH_KM,
) -> Representativeness:
    """Score the accessions of a species (one place each, None where it is unknown) against its range.

    Outlines are GeoJSON in degrees; ``records`` (0 or more) are the known finds of the species, H of
    the sampling score 100 min(1, G / H). Accessions without a place count in that score only, those
    outside the range in none. Raises ``Refused`` for what is no outline, and for a range that no
    ecoregion overlaps.
    """
    known = within(records, say("The known records"), Unit.RECORDS, 0, MOST)
    reach = checked_reach(reach_km)
    plane = Plane(middle(corner_degrees(native_range)))
    whole = plane.shape(native_range)
    regions = _overlapping({name: plane.shape(ecoregions[name]) for name in sorted(ecoregions)}, whole)
    if not regions:
        raise Refused(say("No ecoregion overlaps the range of the species."))
    placed = [place for place in collected if place is not None]
    inside = _inside(placed, whole, plane)
    covered = discs(inside, reach, plane).intersection(whole)
    reached = tuple(_overlapping(regions, covered))
    missed = tuple(name for name in regions if name not in reached)
    shares = (
        _share_sampled(len(collected) - len(placed) + len(inside), known),
        min(covered.area / whole.area, 1.0),
        len(reached) / len(regions),
    )
    warnings = _warnings(known, len(placed) - len(inside))
    sampling, geographic, ecological = (
        Estimate.exact(100 * share, Unit.PERCENT, REPRESENTED) for share in shares
    )
    final = Estimate.exact(100 * sum(shares) / len(shares), Unit.PERCENT, REPRESENTED, *warnings)
    return Representativeness(sampling, geographic, ecological, final, reached, missed)


def _share_sampled(accessions: int, records: int) -> float:
    """Accessions over records, 1 at most; 0 without a record, since nothing then tells what there is."""
    return min(accessions / records, 1.0) if records else 0.0


def _overlapping(regions: Ecoregions, area: BaseGeometry) -> Ecoregions:
    """The regions that share ground with an area, cut to it."""
    cut = {name: region.intersection(area) for name, region in regions.items()}
    return {name: part for name, part in cut.items() if part.area > LEAST_KM2}


def _inside(positions: Sequence[Position], whole: BaseGeometry, plane: Plane) -> Array:
    """Degrees (n × 2) of the positions that lie in an area of the map or on its edge."""
    import numpy as np
    import shapely

    if not positions:
        return np.empty((0, 2))
    degrees = degrees_of(positions)
    shapely.prepare(whole)
    lies_in: Array = degrees[shapely.covers(whole, shapely.points(plane.points_anywhere(degrees)))]
    return lies_in


def _warnings(records: int, outside: int) -> tuple[Words, ...]:
    warnings = []
    if not records:
        warnings.append(say("No record of the species is known, so its sampling score is taken for 0."))
    if outside:
        warnings.append(
            say_n(
                "One accession is from outside the range and counts nothing.",
                "{n} accessions are from outside the range and count nothing.",
                n=outside,
            )
        )
    return tuple(warnings)
