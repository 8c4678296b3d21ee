"""Adoptions: a group asks for a species, a curator answers, and the group holds its populations."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from marshmallow import Schema as AnySchema
from marshmallow import fields

from hub.adoptions import actions, queries
from hub.adoptions.models import Adoption
from hub.adoptions.rules import AdoptionState, Stage
from hub.adoptions.schemas import HoldSchema, ReasonSchema, RemarkSchema
from hub.api.blueprint import api
from hub.api.listing import Asked, listing
from hub.api.rows import only
from hub.api.shown import Moment, Shown
from hub.db.work import Work
from hub.rights.right import Right
from hub.sites.models import Population
from hub.taxa.rules import CareClass
from hub.web.fields import Choice, Identifier, LongText, Schema
from hub.web.paging import Page
from hub.words import Words, say

ADOPTIONS = listing(
    "Adoptions",
    queries.ORDERS,
    state=Choice(AdoptionState),
    stage=Choice(Stage),
    season=Identifier(),
    taxon=Identifier(),
    group=Identifier(),
    district=Identifier(),
)
ONE = "/adoptions/<uuid:adoption_id>"
SOME_ID = "6ab1b8a0-6f3b-4b52-a7c4-6d0f6bb2b1ab"


class AdoptionShown(Shown):
    """A group's claim on one species for one season."""

    id = fields.UUID(attribute="Adoption.id")
    group_id = fields.UUID(attribute="Adoption.group_id")
    group = fields.String()
    season_id = fields.UUID(attribute="Adoption.season_id")
    year = fields.Integer()
    taxon_id = fields.UUID(attribute="Adoption.taxon_id")
    scientific_name = fields.String(attribute="Taxon.scientific_name")
    care_class = Choice(CareClass, attribute="Taxon.care_class")
    district_id = fields.UUID(attribute="Adoption.district_id")
    district = fields.String()
    state = Choice(AdoptionState, attribute="Adoption.state")
    stage = Choice(Stage, attribute="Adoption.stage")
    wish = fields.String(attribute="Adoption.wish")
    reason = fields.String(attribute="Adoption.reason")
    asked_at = Moment(attribute="Adoption.asked_at")
    moved_at = Moment(attribute="Adoption.moved_at")


class HeldShown(Shown):
    """A population that an adoption collects from."""

    id = fields.UUID()
    code = fields.String()
    label = fields.String()
    site_id = fields.UUID()


class AdoptionAskSchema(Schema):
    """A group asks for a species."""

    season_id = Identifier(required=True)
    taxon_id = Identifier(required=True)
    district_id = Identifier(required=True)
    wish = LongText(500, load_default="")


@api.shows(
    "/adoptions",
    needs=Right.ADOPTION_READ,
    summary=say("The adoptions that this seat may see"),
    asks=ADOPTIONS,
    gives=AdoptionShown(),
    paged=True,
)
def adoptions(work: Work, asked: Asked) -> Page:
    return asked.page(work, queries.adoptions(work, **asked.filters))


@api.shows(ONE, needs=Right.ADOPTION_READ, summary=say("One adoption"), gives=AdoptionShown())
def adoption(work: Work, adoption_id: UUID) -> Any:
    return only(work, queries.adoptions(work).where(Adoption.id == adoption_id))


@api.makes(
    "/adoptions",
    needs=Right.ADOPTION_ASK,
    summary=say("Ask for a species"),
    takes=AdoptionAskSchema(),
    gives=AdoptionShown(),
    leads_to="adoption",
    example={"season_id": SOME_ID, "taxon_id": SOME_ID, "district_id": SOME_ID, "wish": ""},
)
def ask_adoption(work: Work, sent: dict[str, Any]) -> Any:
    return adoption(work, actions.ask(work, **sent).id)


def declare_move(verb: str, right: Right, takes: AnySchema, summary: Words) -> None:
    """An operation for one move of an adoption: they differ in nothing else."""
    api.verb(
        f"{ONE}/{verb}",
        name=f"{verb}_adoption",
        does=getattr(actions, verb),
        shows=adoption,
        needs=right,
        summary=summary,
        takes=takes,
        gives=AdoptionShown(),
    )


DECIDES = Right.ADOPTION_DECIDE
declare_move("accept", DECIDES, RemarkSchema(), say("Say yes to a request"))
declare_move("decline", DECIDES, ReasonSchema(), say("Say no to a request"))
declare_move("suspend", DECIDES, ReasonSchema(), say("Pause an adoption"))
declare_move("resume", DECIDES, RemarkSchema(), say("Let a paused adoption go on"))
declare_move("fulfil", DECIDES, RemarkSchema(), say("Note that the group has done it"))
declare_move("release", Right.ADOPTION_ASK, RemarkSchema(), say("Give a species back"))


@api.shows(
    f"{ONE}/populations",
    needs=Right.ADOPTION_READ,
    summary=say("The populations that an adoption collects from"),
    gives=HeldShown(),
    many=True,
)
def populations_held(work: Work, adoption_id: UUID) -> list[Population]:
    return queries.populations_held(work, queries.get(work, adoption_id).id)


@api.moves(
    f"{ONE}/populations",
    needs=Right.SITE_EDIT,
    summary=say("Let an adoption collect from a population"),
    takes=HoldSchema(),
    gives=HeldShown(),
    many=True,
    example={"population_id": SOME_ID},
)
def hold_population(work: Work, adoption_id: UUID, sent: dict[str, Any]) -> list[Population]:
    actions.hold_population(work, adoption_id=adoption_id, **sent)
    return queries.populations_held(work, adoption_id)


def held_now(work: Work, adoption_id: UUID, population_id: UUID) -> list[Population]:
    return populations_held(work, adoption_id)


@api.changes(
    f"{ONE}/populations/<uuid:population_id>",
    method="DELETE",
    needs=Right.SITE_EDIT,
    summary=say("Let a population go; If-Match is the tag of the list"),
    gives=HeldShown(),
    many=True,
    current=held_now,
)
def let_go_population(work: Work, adoption_id: UUID, population_id: UUID) -> list[Population]:
    actions.let_go_population(work, adoption_id=adoption_id, population_id=population_id)
    return queries.populations_held(work, adoption_id)
