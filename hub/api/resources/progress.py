"""The region's progress: stages and gaps by species, counts by district, and what has stalled."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any
from uuid import UUID

from marshmallow import fields

from hub.adoptions.rules import AdoptionState, Stage
from hub.api.blueprint import api
from hub.api.listing import Asked, listing
from hub.api.shown import Count, Moment, Shown
from hub.db.work import Work
from hub.groups.queries import get_region
from hub.progress import queries
from hub.progress.queries import Board, RegionYear
from hub.progress.rules import KEYS, key
from hub.rights.right import Right
from hub.taxa.rules import CareClass
from hub.web.fields import Choice, Identifier, Schema, Whole, Yes
from hub.web.paging import Page
from hub.words import NotFound, say

STAGES = listing(
    "Stages",
    dict.fromkeys(queries.ORDER_NAMES, ()),
    year=Whole(1990, 2190),
    district=Identifier(),
    care=Choice(CareClass),
    stage=Choice(Stage),
    gaps=Yes(),
)
STALLED = listing(
    "Stalled",
    queries.STALLED_ORDERS,
    stage=Choice(Stage),
    district=Identifier(),
    year=Whole(1990, 2190),
)
ONE = "/regions/<uuid:region_id>"


class SpeciesProgress(Shown):
    """One species of a year: adoptions at each stage, populations needed, and those nobody has taken on."""

    taxon_id = fields.UUID(attribute="Taxon.id")
    scientific_name = fields.String(attribute="Taxon.scientific_name")
    care_class = Choice(CareClass, attribute="Taxon.care_class")
    needed = Count("populations")
    missing = Count("populations")
    adoptions = Count("adoptions")
    asked = Count("adoptions")
    adopted = Count("adoptions")
    permitted = Count("adoptions")
    ready = Count("adoptions")
    handed_in = Count("adoptions")
    accessioned = Count("adoptions")
    banked = Count("adoptions")


class DistrictProgress(Shown):
    """One district of a year: adoptions at each stage."""

    district_id = fields.UUID()
    district = fields.String()
    asked = Count("adoptions")
    adopted = Count("adoptions")
    permitted = Count("adoptions")
    ready = Count("adoptions")
    handed_in = Count("adoptions")
    accessioned = Count("adoptions")
    banked = Count("adoptions")


class StalledShown(Shown):
    """An adoption that has not moved for longer than its stage should take."""

    id = fields.UUID(attribute="Adoption.id")
    group = fields.String()
    district = fields.String()
    taxon_id = fields.UUID(attribute="Adoption.taxon_id")
    scientific_name = fields.String(attribute="Taxon.scientific_name")
    state = Choice(AdoptionState, attribute="Adoption.state")
    stage = Choice(Stage, attribute="Adoption.stage")
    moved_at = Moment(attribute="Adoption.moved_at")


class YearSchema(Schema):
    """The year asked for; the running one unless told."""

    year = Whole(1990, 2190)


def year_of(work: Work, region_id: UUID, year: int | None) -> RegionYear:
    """A region in a year. Raises NotFound for one without any season."""
    found = queries.year_of(work, get_region(work, region_id), year)
    if found is None:
        raise NotFound(region_id)
    return found


@api.shows(
    f"{ONE}/progress",
    needs=Right.PROGRESS_READ,
    summary=say("Stages and gaps of a region by species"),
    asks=STAGES,
    gives=SpeciesProgress(),
    paged=True,
)
def progress(work: Work, region_id: UUID, asked: Asked) -> Page:
    wanted = dict(asked.filters)
    year = year_of(work, region_id, wanted.pop("year"))
    board = Board.of(year, wanted.pop("district"))
    return asked.by(board.orders).page(work, board.lines(**wanted))


@api.shows(
    f"{ONE}/progress/districts",
    needs=Right.PROGRESS_READ,
    summary=say("Stages of a region by district"),
    asks=YearSchema(),
    gives=DistrictProgress(),
    many=True,
)
def progress_districts(work: Work, region_id: UUID, asked: dict[str, Any]) -> list[SimpleNamespace]:
    year = year_of(work, region_id, asked["year"])
    counts = queries.by_district(work, year)
    return [
        SimpleNamespace(
            district_id=each.id,
            district=each.name,
            **dict.fromkeys(KEYS, 0) | {key(stage): count for stage, count in counts[each.id].items()},
        )
        for each in year.districts
    ]


@api.shows(
    "/progress/stalled",
    needs=Right.PROGRESS_STEER,
    because="a coordinator calls on the groups of the region's banks",
    summary=say("Adoptions that have not moved for too long"),
    asks=STALLED,
    gives=StalledShown(),
    paged=True,
)
def stalled(work: Work, asked: Asked) -> Page:
    return asked.page(work, queries.stalled(work, **asked.filters))
