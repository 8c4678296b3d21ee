"""What a curator sends with a verdict: which findings, what becomes of them, and why."""

from __future__ import annotations

from hub.vetting.rules import FindingState
from hub.web.fields import Choice, Identifier, LongText, Schema, Several

MOST_AT_ONCE = 500


class SettleSchema(Schema):
    """Findings to settle together. A reason is asked for by the action, where it is needed."""

    finding_ids = Several(Identifier(), least=1, most=MOST_AT_ONCE)
    state = Choice(FindingState, required=True)
    reason = LongText(load_default="")


class ReturnSchema(Schema):
    """What the group should mend, and the findings it may read."""

    remarks = LongText(required=True)
    finding_ids = Several(Identifier(), most=MOST_AT_ONCE)


class DeclineSchema(Schema):
    """Why the bank cannot take it."""

    reason = LongText(required=True)
