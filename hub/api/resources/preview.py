"""The rules alone: what a sheet would say of a case. Nothing is stored, and nothing of the hub is read."""

from __future__ import annotations

from typing import Any

from hub.api.blueprint import api
from hub.api.resources.sheets import SheetBodyShown
from hub.db.work import Work
from hub.protocols.case import Case
from hub.protocols.engine import issue
from hub.protocols.rulebook_reader import standard_rulebook
from hub.protocols.schemas import CaseSchema
from hub.rights.right import Right
from hub.web.fields import Day, Schema
from hub.words import say

EXAMPLE = {
    "taxon": {"name": "Silene acaulis", "care_class": "secure", "fruit_type": "dry_capsule", "native": True},
    "population": {"plants": 600, "fruiting_plants": 400, "identity_verified": True},
    "permission": {"granted": True},
}


class DayAskedSchema(Schema):
    """The day of the sheet; today unless told."""

    on = Day()


@api.operation(
    "POST",
    "/sheets/preview",
    needs=Right.PUBLIC_READ,
    summary=say("What the rules say of a case; nothing is stored"),
    asks=DayAskedSchema(),
    takes=CaseSchema(),
    gives=SheetBodyShown(),
    example=EXAMPLE,
)
def preview(work: Work, sent: Case, asked: dict[str, Any]) -> dict[str, Any]:
    return issue(sent, standard_rulebook(), on=asked["on"] or work.today).as_json()
