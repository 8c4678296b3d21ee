"""What the bank sends with a verdict or an arrival: which findings, what becomes of them, when and why."""

from __future__ import annotations

from hub.vetting.rules import FindingState
from hub.web.fields import Choice, Clock, Day, Identifier, LongText, Schema, Several
from hub.words import say

MOST_AT_ONCE = 500
NONE_TICKED = say("No finding is ticked. Tick those that this is about, then press the button again.")


class SettleSchema(Schema):
    """Findings to settle together. A reason is asked for by the action, where it is needed."""

    finding_ids = Several(Identifier(), least=1, most=MOST_AT_ONCE, error_messages={"required": NONE_TICKED})
    state = Choice(FindingState, required=True)
    reason = LongText(load_default="")


class ReturnSchema(Schema):
    """What the group should mend, and the findings it may read."""

    remarks = LongText(required=True)
    finding_ids = Several(Identifier(), most=MOST_AT_ONCE)


class ArrivalSchema(Schema):
    """When the seed came in, by the bank’s own clock, and how it was."""

    day = Day(required=True)
    at = Clock(required=True)
    note = LongText(1000, load_default="")


class DeclineSchema(Schema):
    """Why the bank cannot take it."""

    reason = LongText(required=True)
