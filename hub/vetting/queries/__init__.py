"""Reads: submissions, what was handed in with them, and what was said about them."""

from hub.vetting.queries.photographs import (
    count_photographs,
    get_photograph,
    photographs,
    photographs_of,
    removed_photographs,
)
from hub.vetting.queries.submissions import (
    ORDERS,
    collection_of,
    findings,
    get,
    newest_revision,
    open_hand_ins,
    ours,
    remarks,
    revisions,
    sent_with,
    shared_findings,
    sheets_in_hand,
    taxa_handed_in,
    under_sheet,
)

__all__ = [
    "ORDERS", "collection_of", "count_photographs", "findings", "get", "get_photograph", "newest_revision",
    "open_hand_ins", "ours", "photographs", "photographs_of", "remarks", "removed_photographs", "revisions",
    "sent_with", "shared_findings", "sheets_in_hand", "taxa_handed_in", "under_sheet",
]  # fmt: skip
