"""What the pages of groups, banks and the hub ask for."""

from __future__ import annotations

import json
from typing import Any
from zoneinfo import available_timezones

from marshmallow import validate

from hub.accounts.rules import LONGEST
from hub.groups.rules import LARGEST_CREW, AdoptionMode, AgeBand, GroupKind
from hub.rights.scope import Role
from hub.web.fields import Choice, Email, Identifier, LongText, Password, Schema, Text, Whole, Yes, refusal
from hub.words import say

CODE = r"[A-Z][A-Z0-9]{1,11}"
LARGEST_LIMIT = 999
# The areas of the IANA database; its other names are old or short ways of writing these.
CONTINENTS = frozenset(
    {"Africa", "America", "Antarctica", "Arctic", "Asia", "Atlantic", "Australia", "Europe", "Indian",
     "Pacific"}
)  # fmt: skip


def zones() -> list[str]:
    """The time zones to choose from, named after places, and UTC."""
    return ["UTC", *sorted(name for name in available_timezones() if name.partition("/")[0] in CONTINENTS)]


def known_zone(name: str) -> None:
    """A time zone of the IANA database."""
    if name not in available_timezones():
        raise refusal(say("Please choose one of the time zones."))


def short_code(code: str) -> None:
    """A code that begins numbers on labels: capitals and digits."""
    try:
        validate.Regexp(f"{CODE}$")(code)
    except validate.ValidationError:
        raise refusal(say("A code has 2 to 12 capital letters or digits and begins with a letter.")) from None


class JoinSchema(Schema):
    name = Text(120, least=3, required=True)
    kind = Choice(GroupKind, required=True)
    district = Identifier(required=True)
    bank = Identifier(required=True)
    contact_name = Text(120, required=True)
    contact_email = Email(required=True)
    about = LongText(2000, load_default="")


class NewAccountSchema(Schema):
    name = Text(120, required=True)
    password = Password(LONGEST, required=True)


class InviteSchema(Schema):
    email = Email(required=True)
    role = Choice(Role, required=True)


class InviteLeadSchema(Schema):
    email = Email(required=True)


class OfficerSchema(Schema):
    email = Email(required=True)
    place = Identifier()


class ReasonSchema(Schema):
    reason = LongText(1000, required=True)


class CrewSchema(Schema):
    nickname = Text(40, least=2, required=True)
    headcount = Whole(1, LARGEST_CREW, say("pupils"), required=True)
    age_band = Choice(AgeBand, required=True)


class GroupWordsSchema(Schema):
    about = LongText(2000, load_default="")
    contact_name = Text(120, required=True)
    contact_email = Email(required=True)


class BankSchema(Schema):
    adoption_mode = Choice(AdoptionMode, required=True)
    groups_per_species = Whole(1, LARGEST_LIMIT, say("groups"), required=True)
    adoptions_per_group = Whole(1, LARGEST_LIMIT, say("adoptions"), required=True)
    home_freezing = Yes()
    law_note = LongText(4000, load_default="")
    address = LongText(500, load_default="")
    email = Email(required=True)
    zone = Text(60, required=True, validate=known_zone)


class RegionSchema(Schema):
    code = Text(12, required=True, validate=short_code)
    name = Text(120, required=True)


class Outline(LongText):
    """The text of a GeoJSON file, read as JSON; whether it is an outline is asked of it later."""

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> Any:
        try:
            return json.loads(super()._deserialize(value, attr, data, **kwargs))
        except (ValueError, RecursionError):
            raise refusal(say("This is not GeoJSON. Paste the whole text of the file.")) from None

    def _validate(self, value: Any) -> None:
        """What was read is no text any more, so its length has no meaning."""


class DistrictSchema(RegionSchema):
    geometry = Outline(required=True)


class NewBankSchema(RegionSchema):
    region = Identifier(required=True)
    email = Email(required=True)
    zone = Text(60, required=True, validate=known_zone)


class CloseAccountSchema(Schema):
    password = Password(LONGEST, required=True)
