"""Salvage: the case of a doomed population, with evidence, the owner's word and the curator's."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from marshmallow import fields
from sqlalchemy import select

from hub.api.blueprint import api
from hub.api.shown import Moment, Shown
from hub.db.work import Work
from hub.rights.right import Right
from hub.sites import actions, queries
from hub.sites.models import Salvage
from hub.sites.rules import Decision, SalvageState
from hub.sites.schemas import AgreeSchema, DecideSchema, SalvageSchema
from hub.web.fields import Choice
from hub.words import say

OF_POPULATION = "/populations/<uuid:population_id>/salvage"
ONE = "/salvage/<uuid:salvage_id>"


class SalvageShown(Shown):
    """Where the case stands."""

    id = fields.UUID()
    population_id = fields.UUID()
    state = Choice(SalvageState)
    evidence = fields.String()
    evidence_on = fields.Date()
    loss_expected_on = fields.Date(allow_none=True)
    owner_agreed_on = fields.Date(allow_none=True)
    decided_at = Moment(allow_none=True)
    reason = fields.String()
    asked_at = Moment()


class SalvageAskSchema(SalvageSchema):
    """A case, in words."""

    class Meta:
        exclude = ("evidence_file",)


@api.shows(
    OF_POPULATION,
    needs=Right.SITE_READ,
    summary=say("Every case of a population, the newest first"),
    gives=SalvageShown(),
    many=True,
)
def salvages(work: Work, population_id: UUID) -> list[Salvage]:
    found = select(Salvage).where(Salvage.population_id == queries.get_population(work, population_id).id)
    return list(work.db.scalars(found.order_by(Salvage.asked_at.desc(), Salvage.id.desc())))


@api.shows(ONE, needs=Right.SITE_READ, summary=say("One case"), gives=SalvageShown())
def salvage(work: Work, salvage_id: UUID) -> Salvage:
    return queries.get_salvage(work, salvage_id)


@api.makes(
    OF_POPULATION,
    needs=Right.SITE_EDIT,
    summary=say("Open a case with its evidence"),
    takes=SalvageAskSchema(),
    gives=SalvageShown(),
    leads_to="salvage",
    example={"evidence": "The field is to be ploughed up.", "evidence_on": "2031-06-01"},
)
def ask_salvage(work: Work, population_id: UUID, sent: dict[str, Any]) -> Salvage:
    return actions.ask_salvage(work, population_id=population_id, **sent)


api.verb(
    f"{ONE}/agree",
    name="agree_salvage",
    does=actions.agree_salvage,
    shows=salvage,
    needs=Right.SITE_EDIT,
    summary=say("Note that the owner agreed"),
    takes=AgreeSchema(),
    gives=SalvageShown(),
)


@api.moves(
    f"{ONE}/decide",
    needs=Right.SALVAGE_DECIDE,
    summary=say("Approve or refuse a case"),
    takes=DecideSchema(),
    gives=SalvageShown(),
    example={"decision": "approve", "reason": "The works begin in August."},
)
def decide_salvage(work: Work, salvage_id: UUID, sent: dict[str, Any]) -> Salvage:
    approve = sent["decision"] is Decision.APPROVE
    return actions.decide_salvage(work, salvage_id=salvage_id, approve=approve, reason=sent["reason"])
