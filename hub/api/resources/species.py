"""Species with the traits that the protocol rules ask for, their standings and their ecoregions."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from marshmallow import fields

from hub.api.blueprint import api
from hub.api.listing import Asked, listing
from hub.api.resources.regions import EcoregionShown
from hub.api.shown import Amount, Kept, Shown
from hub.db.work import Work
from hub.rights.right import Right
from hub.taxa import actions, queries
from hub.taxa.models import Difficulty, Ecoregion, Evidence, Standing, StandingKind, Taxon
from hub.taxa.queries import lists
from hub.taxa.rules import CareClass, FruitType, Hazard, LifeForm, StorageBehaviour
from hub.taxa.schemas import EcoregionsSchema, SpeciesSchema, StandingsSchema
from hub.web.fields import Choice, Identifier, Yes
from hub.web.paging import Page
from hub.words import say

SPECIES = listing(
    "Species",
    lists.SPECIES_ORDERS,
    care=Choice(CareClass),
    storage=Choice(StorageBehaviour),
    difficulty=Choice(Difficulty),
    ecoregion=Identifier(),
    school=Yes(),
)
ONE = "/species/<uuid:taxon_id>"
EXAMPLE = {
    "scientific_name": "Silene acaulis (L.) Jacq.",
    "family": "Caryophyllaceae",
    "fruit_type": "dry_capsule",
}


class SpeciesShown(Shown):
    """A species, or a taxon below it."""

    id = fields.UUID()
    scientific_name = fields.String()
    canonical = fields.String()
    family = fields.String()
    vernacular = fields.String()
    care_class = Choice(CareClass)
    life_form = Choice(LifeForm)
    fruit_type = Choice(FruitType)
    storage = Choice(StorageBehaviour)
    storage_source = fields.String()
    storage_evidence = Choice(Evidence)
    hazards = fields.List(Kept(Hazard), allow_none=True)
    native = fields.Boolean(allow_none=True)
    dioecious = fields.Boolean(allow_none=True)
    clonal = fields.Boolean(allow_none=True)
    two_year_ripening = fields.Boolean(allow_none=True)
    masting = fields.Boolean(allow_none=True)
    persistent_seed_bank = fields.Boolean(allow_none=True)
    international_trade_listed = fields.Boolean(allow_none=True)
    seed_mass_mg = Amount("mg", allow_none=True)
    seeds_per_fruit = Amount("seeds", allow_none=True)
    collect_from_bbch = fields.String(allow_none=True)
    flowers_from = fields.Integer(allow_none=True)
    ripens_from = fields.Integer(allow_none=True)
    ripens_to = fields.Integer(allow_none=True)
    ripeness_note = fields.String()
    diagnostic_parts = fields.String()
    lookalikes = fields.String()
    difficulty = Choice(Difficulty)
    suits_school = fields.Boolean()
    sensitivity = fields.Integer(allow_none=True)
    note = fields.String()


class SpeciesGivenSchema(SpeciesSchema):
    """What a program says of a species."""

    class Meta:
        exclude = ("version",)


class SpeciesChangeSchema(SpeciesGivenSchema):
    """What a program changes of a species: the members that it names."""


class StandingShown(Shown):
    """One authority's statement on rarity."""

    kind = Choice(StandingKind)
    text = fields.String()
    place = fields.String()
    authority = fields.String()
    as_of = fields.Date(allow_none=True)
    permit_needed = fields.Boolean()


class StandingsGivenSchema(StandingsSchema):
    """All standings of a species."""

    class Meta:
        exclude = ("version",)


class EcoregionsGivenSchema(EcoregionsSchema):
    """The ecoregions of the own region that a species grows in."""

    class Meta:
        exclude = ("version",)


@api.shows(
    "/species",
    needs=Right.SPECIES_READ,
    summary=say("Species"),
    asks=SPECIES,
    gives=SpeciesShown(),
    paged=True,
)
def species_list(work: Work, asked: Asked) -> Page:
    return asked.page(work, lists.species(**asked.filters))


@api.shows(ONE, needs=Right.SPECIES_READ, summary=say("One species"), gives=SpeciesShown())
def taxon(work: Work, taxon_id: UUID) -> Taxon:
    return queries.get(work, taxon_id)


@api.makes(
    "/species",
    needs=Right.SPECIES_EDIT,
    summary=say("Add a species"),
    takes=SpeciesGivenSchema(),
    gives=SpeciesShown(),
    leads_to="taxon",
    example=EXAMPLE,
)
def add_species(work: Work, sent: dict[str, Any]) -> Taxon:
    return actions.add(work, **sent)


@api.changes(
    ONE,
    needs=Right.SPECIES_EDIT,
    summary=say("Change some traits of a species"),
    takes=SpeciesChangeSchema(partial=True),
    gives=SpeciesShown(),
    current=taxon,
    example={"vernacular": "Moss campion"},
)
def change_species(work: Work, taxon_id: UUID, sent: dict[str, Any]) -> Taxon:
    return actions.change(work, taxon_id=taxon_id, **sent)


@api.shows(
    f"{ONE}/standings",
    needs=Right.SPECIES_READ,
    summary=say("What authorities say of the rarity of a species"),
    gives=StandingShown(),
    many=True,
)
def standings(work: Work, taxon_id: UUID) -> list[Standing]:
    return queries.standings(work, queries.get(work, taxon_id).id)


@api.changes(
    f"{ONE}/standings",
    method="PUT",
    needs=Right.SPECIES_EDIT,
    summary=say("Set all standings of a species; its care class follows"),
    takes=StandingsGivenSchema(),
    gives=StandingShown(),
    many=True,
    current=standings,
)
def set_standings(work: Work, taxon_id: UUID, sent: dict[str, Any]) -> list[Standing]:
    given = [actions.StandingGiven(**row) for row in sent["standings"]]
    actions.set_standings(work, taxon_id=taxon_id, standings=given)
    return queries.standings(work, taxon_id)


@api.shows(
    f"{ONE}/ecoregions",
    needs=Right.SPECIES_READ,
    summary=say("The ecoregions that a species grows in"),
    gives=EcoregionShown(),
    many=True,
)
def species_ecoregions(work: Work, taxon_id: UUID) -> list[Ecoregion]:
    return queries.ecoregions_of(work, queries.get(work, taxon_id).id)


@api.changes(
    f"{ONE}/ecoregions",
    method="PUT",
    needs=Right.SPECIES_EDIT,
    summary=say("Say in which ecoregions of the own region a species grows"),
    takes=EcoregionsGivenSchema(),
    gives=EcoregionShown(),
    many=True,
    current=species_ecoregions,
)
def set_species_ecoregions(work: Work, taxon_id: UUID, sent: dict[str, Any]) -> list[Ecoregion]:
    actions.set_ecoregions(work, taxon_id=taxon_id, **sent)
    return queries.ecoregions_of(work, taxon_id)
