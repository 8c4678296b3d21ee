"""Verbs: issue and withdraw sheets, consent, change a rule for one bank."""

from hub.protocols.actions.changes_of_rules import end_override, make_override
from hub.protocols.actions.consents import sign_off, take_back, with_consent
from hub.protocols.actions.issuing import drawn_up, end, issue, put_in_force, said_by, withdraw

__all__ = [
    "drawn_up", "end", "end_override", "issue", "make_override", "put_in_force", "said_by", "sign_off",
    "take_back", "with_consent", "withdraw",
]  # fmt: skip
