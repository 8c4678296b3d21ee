"""Whether the place given is where the plants grow, and the photographs agree with it.

A position is believed to be off by what the group said, but by no more than ``MOST_CREDIT_M``: otherwise a
careless figure would hide a wrong place.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import timedelta

from hub.science.distance import Position, distance_m, distance_outside_m
from hub.vetting.checks.answers import Answers, query, stop
from hub.vetting.checks.grounds import OWN
from hub.vetting.evidence import Evidence, Place, Polygon
from hub.vetting.rules import PhotographKind
from hub.words import say

MOST_CREDIT_M = 100.0
"""A phone under trees is hardly ever further off."""

WALK_M = 500.0
"""How far from the population’s own position its plants may reasonably stand."""

CAMERA_M = 250.0
"""How far from the place given a photograph of the plants may have been taken."""

FIELD_PICTURES = frozenset({PhotographKind.PLANT, PhotographKind.DIAGNOSTIC, PhotographKind.HABITAT})
"""Pictures made where the plants stand; fruit and specimens are often photographed at home."""


def position_in_site(evidence: Evidence) -> Answers:
    """Seed from outside the site has neither permission nor a locality."""
    outside = _outside_site_m(evidence.place, _position(evidence))
    if outside > _credit_m(evidence):
        words = say(
            "The place given lies {metres} m outside {site}.", metres=round(outside), site=evidence.place.site
        )
        yield stop(
            "position_in_site",
            words,
            OWN,
            {"outside_m": round(outside), "uncertainty_m": evidence.collection.uncertainty_m},
        )


def position_precision(evidence: Evidence) -> Answers:
    """A position that may be off by hundreds of metres says too little."""
    uncertainty = evidence.collection.uncertainty_m
    if uncertainty > MOST_CREDIT_M:
        words = say(
            "The place given may be off by {metres} m; {most} m is the most that finds the plants again.",
            metres=uncertainty,
            most=MOST_CREDIT_M,
        )
        yield query("position_precision", words, OWN, {"uncertainty_m": uncertainty, "most_m": MOST_CREDIT_M})


def position_near_population(evidence: Evidence) -> Answers:
    """Far from the population’s own position stand perhaps other plants."""
    place = evidence.place
    apart = distance_m(_position(evidence), place.position)
    if apart > WALK_M + place.uncertainty_m + _credit_m(evidence):
        words = say(
            "The place given lies {metres} m from population {population}.",
            metres=round(apart),
            population=place.population,
        )
        yield query("position_near_population", words, OWN, {"apart_m": round(apart), "usual_m": WALK_M})


def position_in_region(evidence: Evidence) -> Answers:
    """Beyond the region’s districts another bank, and perhaps another law, is at home."""
    outside = _outside_all_m(evidence.place.districts, _position(evidence))
    if outside > _credit_m(evidence):
        words = say("The place given lies {metres} m outside the region.", metres=round(outside))
        yield query("position_in_region", words, OWN, {"outside_m": round(outside)})


def position_in_range(evidence: Evidence) -> Answers:
    """Outside every ecoregion that the species is known from, the name or the place may be wrong."""
    outside = _outside_all_m(evidence.taxon.range, _position(evidence))
    if outside > _credit_m(evidence):
        words = say(
            "The place given lies {metres} m outside the ecoregions that {taxon} is known from.",
            metres=round(outside),
            taxon=evidence.taxon.name,
        )
        yield query("position_in_range", words, OWN, {"outside_m": round(outside)})


def photograph_position(evidence: Evidence) -> Answers:
    """Pictures of plants and habitat carry the camera’s own position."""
    here = _position(evidence)
    field = [each.position for each in evidence.photographs if each.kind in FIELD_PICTURES and each.position]
    apart = [distance_m(here, position) for position in field]
    far = [metres for metres in apart if metres > CAMERA_M + _credit_m(evidence)]
    if far:
        words = say(
            "Of {all} photographs with a position, {far} lie up to {metres} m from the place given.",
            all=len(field),
            far=len(far),
            metres=round(max(far)),
        )
        known = {"photographs_far": len(far), "photographs_placed": len(field), "limit_m": CAMERA_M}
        yield query("photograph_position", words, OWN, {"farthest_m": round(max(far)), **known})


def photograph_day(evidence: Evidence) -> Answers:
    """The camera’s clock agrees with the day given, give or take one day for a clock that is set wrong."""
    day = evidence.collection.collected_on
    taken = [
        each.taken_at.astimezone(evidence.zone).date()
        for each in evidence.photographs
        if each.kind in FIELD_PICTURES and each.taken_at
    ]
    other = sorted(each for each in taken if abs(each - day) > timedelta(days=1))
    if other:
        words = say(
            "Of {all} photographs with a date, {other} were taken on another day, such as {day}.",
            all=len(taken),
            other=len(other),
            day=other[0],
        )
        yield query("photograph_day", words, OWN, {"collected_on": day, "photographed_on": other})


def _position(evidence: Evidence) -> Position:
    return Position(latitude=evidence.collection.latitude, longitude=evidence.collection.longitude)


def _credit_m(evidence: Evidence) -> float:
    return min(evidence.collection.uncertainty_m, MOST_CREDIT_M)


def _outside_site_m(place: Place, position: Position) -> float:
    """Metres outside the site’s outline, or outside its circle where none is drawn."""
    if place.site_outline is not None:
        return distance_outside_m(place.site_outline, position)
    return max(distance_m(position, place.site_position) - place.site_radius_m, 0.0)


def _outside_all_m(areas: Iterable[Polygon], position: Position) -> float:
    """Metres to the nearest of several areas; 0 inside one of them, or when there are none."""
    return min((distance_outside_m(area, position) for area in areas), default=0.0)
