"""Censuses: dated counts of a population, each kept as it was."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from marshmallow import fields

from hub.api.blueprint import api
from hub.api.shown import Amount, Count, Moment, Shown
from hub.db.work import Work
from hub.rights.right import Right
from hub.sites import actions, queries
from hub.sites.models import Census
from hub.sites.rules import CensusMethod
from hub.sites.schemas import CensusSchema
from hub.web.fields import Choice
from hub.words import say

OF_POPULATION = "/populations/<uuid:population_id>/censuses"
EXAMPLE = {"counted_on": "2031-06-20", "method": "counted one by one", "plants": 600, "fruiting_plants": 400}


class CensusShown(Shown):
    """One count, with its 95 % interval where the method gives one."""

    id = fields.UUID()
    population_id = fields.UUID()
    counted_on = fields.Date()
    method = Choice(CensusMethod)
    plants = Count("plants")
    plants_low = Count("plants", allow_none=True)
    plants_high = Count("plants", allow_none=True)
    fruiting_plants = Count("plants", allow_none=True)
    plants_counted = Count("plants", allow_none=True)
    fruits_per_plant = Amount("fruits", allow_none=True)
    fruits_per_plant_se = Amount("fruits", allow_none=True)
    seeds_per_fruit = Amount("seeds", allow_none=True)
    seeds_per_fruit_se = Amount("seeds", allow_none=True)
    empty_share = fields.Float(allow_none=True)
    immature_share = fields.Float(allow_none=True)
    poor_year = fields.Boolean(allow_none=True)
    disease_seen = fields.Boolean(allow_none=True)
    note = fields.String()
    noted_at = Moment()


@api.shows(
    OF_POPULATION,
    needs=Right.SITE_READ,
    summary=say("Every census of a population, oldest first"),
    gives=CensusShown(),
    many=True,
)
def censuses(work: Work, population_id: UUID) -> list[Census]:
    return queries.censuses(work, queries.get_population(work, population_id).id)


@api.makes(
    OF_POPULATION,
    needs=Right.CENSUS_RECORD,
    summary=say("Record a count"),
    takes=CensusSchema(),
    gives=CensusShown(),
    example=EXAMPLE,
)
def record_census(work: Work, population_id: UUID, sent: dict[str, Any]) -> Census:
    return actions.record_census(work, population_id=population_id, **sent)
