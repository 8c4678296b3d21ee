"""Which seed zones a bank holds enough accessions from."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from typing import Generic, TypeVar

from hub.science.geography.sources import ZONES
from hub.science.quantity import MOST, Estimate, Unit, within
from hub.words import Words, say, say_n

Zone = TypeVar("Zone", str, tuple[str, str])
"""The name of a seed zone, or of a seed zone and an ecoregion where the two are laid over each other."""


@dataclass(frozen=True)
class ZoneCoverage(Generic[Zone]):
    """The share of zones with enough accessions, and how many more each other zone needs, by name."""

    share: Estimate
    still_needed: Mapping[Zone, int]


def zone_coverage(
    zones: Collection[Zone], accessions: Iterable[Zone], *, at_least: int = 1
) -> ZoneCoverage[Zone]:
    """Share of one or more zones with at least so many accessions (1 or more), one zone an accession.

    Accessions from elsewhere count nothing; a warning says how many there are.
    """
    wanted = sorted(set(zones))
    within(len(wanted), say("The number of seed zones"), Unit.ZONES, 1, MOST)
    enough = within(at_least, say("The accessions wanted from a zone"), Unit.POPULATIONS, 1, MOST)
    held = Counter(accessions)
    still_needed = {zone: enough - held[zone] for zone in wanted if held[zone] < enough}
    warnings = _elsewhere(held.total() - sum(held[zone] for zone in wanted))
    share = Estimate.exact(1 - len(still_needed) / len(wanted), Unit.SHARE, ZONES, *warnings)
    return ZoneCoverage(share, still_needed)


def _elsewhere(accessions: int) -> tuple[Words, ...]:
    warning = say_n(
        "One accession is from none of these zones and counts nothing.",
        "{n} accessions are from none of these zones and count nothing.",
        n=accessions,
    )
    return (warning,) if accessions else ()
