"""Reads: submissions, what was handed in with them, and what was said about them."""

from hub.vetting.queries.bench import (
    ALIKE_ORDERS,
    BENCH_ORDERS,
    COUNTED,
    Gravity,
    alike,
    bench,
    bench_choices,
    count_waiting,
    findings_alike,
    history,
    neighbour,
    open_notes,
)
from hub.vetting.queries.elsewhere import (
    CONSENT_ORDERS,
    CURATOR_DECIDES,
    consents_waiting,
    salvage_waiting,
    waiting_elsewhere,
)
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
    sheets_put_away,
    taxa_handed_in,
    under_sheet,
)

__all__ = [
    "ALIKE_ORDERS", "BENCH_ORDERS", "CONSENT_ORDERS", "CURATOR_DECIDES", "consents_waiting",
    "salvage_waiting", "waiting_elsewhere", "COUNTED",
    "ORDERS", "Gravity", "alike", "bench", "bench_choices", "collection_of",
    "count_photographs", "count_waiting", "findings", "findings_alike", "get", "get_photograph", "history",
    "neighbour", "newest_revision", "open_hand_ins", "open_notes", "ours", "photographs", "photographs_of",
    "remarks", "removed_photographs", "revisions", "sent_with", "shared_findings", "sheets_in_hand",
    "sheets_put_away", "taxa_handed_in", "under_sheet",
]  # fmt: skip
