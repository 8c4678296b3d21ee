"""How a place may be shown to whom: exactly to those let in, generalised to everybody else and in every file.

The fences decide who is let in: whoever can read the row works for its bank or in a group of the site. What
leaves the hub, or goes to anybody else, passes through here. Nothing is ever left blank: it says what was
rounded, or that it is withheld.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime, time
from typing import Protocol

from sqlalchemy import select

from hub.audit.actions import record
from hub.audit.models import AuditEntry
from hub.audit.rules import Event
from hub.db.base import Base
from hub.db.work import Work
from hub.science.localities import GeneralisedPlace, Sensitivity, Withheld, generalise
from hub.sites.models import Population, Site
from hub.taxa.models import Taxon
from hub.taxa.rules import CareClass, category_for
from hub.words import Words, say

WITHHELD = say("withheld")
Public = GeneralisedPlace | Withheld


class Grows(Protocol):
    """What is asked of a taxon: anything that carries the two."""

    care_class: CareClass
    sensitivity: int | None


def sensitivity_of(taxon: Grows) -> Sensitivity:
    """The category that a curator gave the taxon, else that of its care class."""
    return Sensitivity(taxon.sensitivity) if taxon.sensitivity else category_for(taxon.care_class)


def sensitivity_at(taxa: Iterable[Grows]) -> Sensitivity:
    """The most sensitive of all that grow somewhere; where nothing is recorded, as of a taxon unknown."""
    return min((sensitivity_of(taxon) for taxon in taxa), default=category_for(CareClass.UNKNOWN))


def public_place(place: Population | Site, taxa: Iterable[Grows]) -> Public:
    """The place of a population with its taxon, or of a site with all of its taxa, as anybody may have it."""
    reach = place.radius_m if isinstance(place, Site) else place.uncertainty_m
    return generalise(place.latitude, place.longitude, reach, sensitivity_at(taxa))


def cells(place: Public) -> tuple[object, object, object, Words]:
    """Latitude and longitude (degrees, WGS 84), uncertainty (m) and how exact that is, for a file's row."""
    if isinstance(place, Withheld):
        return WITHHELD, WITHHELD, WITHHELD, place.words
    return place.latitude, place.longitude, place.uncertainty_m, place.words


def is_guarded(taxa: Iterable[Grows]) -> bool:
    """Whether reading the exact place is noted: for every taxon above secure, and where none is recorded."""
    taxa = list(taxa)
    return not taxa or any(taxon.care_class is not CareClass.SECURE for taxon in taxa)


def read_today(work: Work, thing: Base) -> bool:
    """Whether this person's reading of this thing's place was noted today already; once a day is enough."""
    midnight = datetime.combine(work.today, time(), work.zone)
    found = select(AuditEntry.serial).where(
        AuditEntry.thing_kind == thing.__tablename__,
        AuditEntry.thing_id == str(getattr(thing, "id", "")),
        AuditEntry.event == Event.LOCALITY_READ,
        AuditEntry.person_id == work.scope.person_id,
        AuditEntry.at >= midnight,
    )
    return work.db.scalars(found.limit(1)).first() is not None


def note_reading(work: Work, thing: Base) -> None:
    """Note that the exact place was read. The work must be one that may write."""
    record(work, Event.LOCALITY_READ, thing)


def category_words(taxon: Taxon) -> Words:
    """What others get to see of this taxon's places, in a sentence."""
    steps = {
        Sensitivity.EXTREME: say("Nobody else sees this place: it is withheld."),
        Sensitivity.HIGH: say("Others see this place rounded to a square 0.1° wide, about 10 km."),
        Sensitivity.MEDIUM: say("Others see this place rounded to a square 0.01° wide, about 1 km."),
        Sensitivity.LOW: say("Others see this place rounded to a square 0.001° wide, about 100 m."),
    }
    return steps[sensitivity_of(taxon)]
