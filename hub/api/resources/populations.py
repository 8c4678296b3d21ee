"""Populations: plants of one taxon at one site. The list tells no place; one tells it to those let in."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from marshmallow import fields
from sqlalchemy import Select, select

from hub.api.blueprint import api
from hub.api.listing import Asked, listing
from hub.api.rows import only, said_in, where_given
from hub.api.shown import Amount, Count, Moment, PlaceShown, Shown, place_shown
from hub.collecting.queries import Balance, balance
from hub.db.work import Work
from hub.rights.right import Right
from hub.sites import actions, queries
from hub.sites.localities import public_place
from hub.sites.models import Population
from hub.sites.readings import exact_place_read
from hub.sites.rules import Origin, Threat, Trend
from hub.sites.schemas import ChangePopulationSchema, NewPopulationSchema, ReasonSchema, VerifySchema
from hub.taxa.models import Taxon
from hub.taxa.rules import CareClass
from hub.web.fields import Choice, Identifier, Yes
from hub.web.paging import Page
from hub.words import say

ORDERS = {
    "code": (Population.code, Population.id),
    "code-down": (Population.code.desc(), Population.id),
    "species": (Taxon.canonical, Population.code, Population.id),
}
POPULATIONS = listing("Populations", ORDERS, site=Identifier(), taxon=Identifier(), retired=Yes())
ONE = "/populations/<uuid:population_id>"
EXAMPLE = {
    "taxon_id": "6ab1b8a0-6f3b-4b52-a7c4-6d0f6bb2b1ab",
    "label": "by the wall",
    "latitude": 47.8,
    "longitude": -28.2,
    "uncertainty_m": 10,
    "origin": "wild",
}


class PopulationShown(Shown):
    """A population without its place."""

    id = fields.UUID(attribute="Population.id")
    site_id = fields.UUID(attribute="Population.site_id")
    taxon_id = fields.UUID(attribute="Population.taxon_id")
    scientific_name = fields.String(attribute="Taxon.scientific_name")
    care_class = Choice(CareClass, attribute="Taxon.care_class")
    code = fields.String(attribute="Population.code")
    label = fields.String(attribute="Population.label")
    origin = Choice(Origin, attribute="Population.origin")
    identity_verified = fields.Boolean(attribute="Population.identity_verified")
    trend = Choice(Trend, attribute="Population.trend")
    threat = Choice(Threat, attribute="Population.threat")
    years_collected_before = fields.List(
        fields.Integer(), attribute="Population.years_collected_before", allow_none=True
    )
    retired_at = Moment(attribute="Population.retired_at", allow_none=True)


class PopulationWhole(PopulationShown):
    """A population with its exact place, for those let in, and with the place that others may know."""

    latitude = Amount("°", attribute="Population.latitude")
    longitude = Amount("°", attribute="Population.longitude")
    uncertainty_m = Amount("m", attribute="Population.uncertainty_m")
    threat_note = fields.String(attribute="Population.threat_note")
    public_place = fields.Nested(PlaceShown)


class BalanceShown(Shown):
    """What may leave a population in one collecting year, all groups together."""

    allowance = Count("seeds")
    reserved = Count("seeds")
    taken = Count("seeds")
    left = Count("seeds")


class PopulationGivenSchema(NewPopulationSchema):
    """A population, with its species by id."""

    class Meta:
        exclude = ("species",)

    taxon_id = Identifier(required=True)


class PopulationChangeSchema(ChangePopulationSchema):
    """What is changed of a population: the members that are named."""

    class Meta:
        exclude = ("version",)


def listed(**wanted: Any) -> Select[*tuple[Any, ...]]:
    """Populations that this seat may see, with their taxa."""
    search, retired = wanted.pop("search", None), wanted.pop("retired", False)
    found = select(Population, Taxon).join(Taxon, Taxon.id == Population.taxon_id)
    named = {getattr(Population, f"{name}_id"): value for name, value in wanted.items()}
    here = Population.retired_at.is_not(None) if retired else Population.retired_at.is_(None)
    words = said_in(search, Population.code, Population.label, Taxon.scientific_name, Taxon.vernacular)
    return found.where(words, here, *where_given(named))


@api.shows(
    "/populations",
    needs=Right.SITE_READ,
    summary=say("The populations that this seat may see, without their places"),
    asks=POPULATIONS,
    gives=PopulationShown(),
    paged=True,
)
def populations(work: Work, asked: Asked) -> Page:
    return asked.page(work, listed(**asked.filters))


def whole(work: Work, population_id: UUID) -> dict[str, Any]:
    """A population with all that is shown of it."""
    found = select(Population, Taxon).join(Taxon, Taxon.id == Population.taxon_id)
    row = only(work, found.where(Population.id == population_id))
    place = place_shown(public_place(row.Population, [row.Taxon]))
    return {"Population": row.Population, "Taxon": row.Taxon, "public_place": place}


@api.shows(
    ONE,
    needs=Right.SITE_READ,
    summary=say("One population with its exact place; the reading is noted"),
    gives=PopulationWhole(),
)
def population(work: Work, population_id: UUID) -> dict[str, Any]:
    found = whole(work, population_id)
    exact_place_read(work, found["Population"], [found["Taxon"]])
    return found


@api.makes(
    "/sites/<uuid:site_id>/populations",
    needs=Right.SITE_EDIT,
    summary=say("Add a population at a site"),
    takes=PopulationGivenSchema(),
    gives=PopulationWhole(),
    leads_to="population",
    example=EXAMPLE,
)
def add_population(work: Work, site_id: UUID, sent: dict[str, Any]) -> dict[str, Any]:
    return whole(work, actions.add_population(work, site_id=site_id, **sent).id)


@api.changes(
    ONE,
    needs=Right.SITE_EDIT,
    summary=say("Change a population"),
    takes=PopulationChangeSchema(partial=True),
    gives=PopulationWhole(),
    current=whole,
    example={"trend": "falling"},
)
def change_population(work: Work, population_id: UUID, sent: dict[str, Any]) -> dict[str, Any]:
    actions.change_population(work, population_id=population_id, **sent)
    work.db.flush()
    return whole(work, population_id)


for verb, does, needs, takes, summary in (
    (
        "verify",
        actions.verify_identity,
        Right.IDENTITY_VERIFY,
        VerifySchema(),
        say("Note that somebody competent is sure what grows there"),
    ),
    (
        "retire",
        actions.retire_population,
        Right.SITE_EDIT,
        ReasonSchema(),
        say("Note that the plants are gone"),
    ),
    ("bring-back", actions.bring_back_population, Right.SITE_EDIT, ReasonSchema(), say("Undo a retirement")),
):
    api.verb(
        f"{ONE}/{verb}",
        name=f"{verb.replace('-', '_')}_population",
        does=does,
        shows=whole,
        needs=needs,
        summary=summary,
        takes=takes,
        gives=PopulationWhole(),
    )


@api.shows(
    f"{ONE}/allowance/<int(max=9999):year>",
    needs=Right.SITE_READ,
    summary=say("What may still leave a population in a collecting year"),
    gives=BalanceShown(),
)
def allowance(work: Work, population_id: UUID, year: int) -> Balance:
    queries.get_population(work, population_id)
    return balance(work, population_id=population_id, year=year)
