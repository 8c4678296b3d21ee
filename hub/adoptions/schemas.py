"""What the forms about adoptions ask for."""

from __future__ import annotations

from enum import StrEnum

from hub.web.fields import Identifier, LongText, Schema, Several, Yes


class Answer(StrEnum):
    """What a curator says to a request."""

    ACCEPT = "accept"
    DECLINE = "decline"


class AskSchema(Schema):
    """A group asks for a species."""

    district_id = Identifier(required=True)
    wish = LongText(500, load_default="")
    promised = Yes(must=True)


class AcceptSchema(Schema):
    """Yes to some requests, with a word if wanted."""

    ids = Several(Identifier(), least=1, most=200)
    reason = LongText(1000, load_default="")


class DeclineSchema(Schema):
    """No to some requests, with the reason that their groups are told."""

    ids = Several(Identifier(), least=1, most=200)
    reason = LongText(1000, required=True)


class RemarkSchema(Schema):
    """A move that may say why."""

    reason = LongText(1000, load_default="")


class ReasonSchema(Schema):
    """A move that must say why."""

    reason = LongText(1000, required=True)


class HoldSchema(Schema):
    """The population that an adoption is to collect from."""

    population_id = Identifier(required=True)
