"""Who a key acts for, and in which seat."""

from __future__ import annotations

from typing import Any

from marshmallow import fields

from hub.api.blueprint import api
from hub.api.shown import Shown
from hub.db.work import Work
from hub.rights.policy import may
from hub.rights.right import Right
from hub.rights.scope import Role
from hub.web.caller import caller
from hub.web.fields import Choice
from hub.words import say


class MeShown(Shown):
    """One person in one seat."""

    person_id = fields.UUID()
    name = fields.String()
    seat = fields.String(metadata={"description": "The seat in words."})
    role = Choice(Role, allow_none=True)
    group_id = fields.UUID(allow_none=True)
    bank_id = fields.UUID(allow_none=True)
    region_id = fields.UUID(allow_none=True)
    zone = fields.String(metadata={"description": "The bank's time zone, in which days are reckoned."})
    rights = fields.List(Choice(Right))


PLACES = ("person_id", "role", "group_id", "bank_id", "region_id")


@api.shows(
    "/me",
    needs=Right.ACCOUNT_OWN,
    summary=say("Who this key acts for, and what it may do"),
    gives=MeShown(),
)
def me(work: Work) -> dict[str, Any]:
    asking = caller()
    rights = [right for right in Right if may(work.scope, right)]
    told = {"name": asking.name, "seat": asking.seat_label, "zone": asking.zone, "rights": rights}
    return told | {name: getattr(work.scope, name) for name in PLACES}
