"""States of a submission and of a finding, and the only moves between them."""

from __future__ import annotations

from enum import StrEnum


class SubmissionState(StrEnum):
    """Where a submission stands."""

    DRAFT = "draft"
    HANDED_IN = "handed in"
    RETURNED = "returned"
    APPROVED = "approved"
    DECLINED = "declined"
    WITHDRAWN = "withdrawn"


SUBMISSION_MOVES: dict[SubmissionState, frozenset[SubmissionState]] = {
    SubmissionState.DRAFT: frozenset({SubmissionState.HANDED_IN, SubmissionState.WITHDRAWN}),
    SubmissionState.HANDED_IN: frozenset(
        {SubmissionState.RETURNED, SubmissionState.APPROVED, SubmissionState.DECLINED}
    ),
    SubmissionState.RETURNED: frozenset({SubmissionState.HANDED_IN, SubmissionState.DECLINED}),
    SubmissionState.APPROVED: frozenset(),
    SubmissionState.DECLINED: frozenset(),
    SubmissionState.WITHDRAWN: frozenset(),
}


class Severity(StrEnum):
    """How much a finding weighs: a stop blocks approval until it is resolved or overruled."""

    STOP = "stop"
    QUERY = "query"
    NOTE = "note"


class FindingState(StrEnum):
    """What has become of a finding."""

    OPEN = "open"
    RESOLVED = "resolved"
    OVERRULED = "overruled"


class Urgency(StrEnum):
    """Why a submission should be looked at sooner: what becomes of the seed while it waits."""

    ALIVE = "alive"  # desiccation-sensitive or short-lived seed that dies on the way
    DAMP = "damp"  # fleshy or undried seed
    DRY = "dry"


URGENCY_ORDER = {Urgency.ALIVE: 0, Urgency.DAMP: 1, Urgency.DRY: 2}
LAST_RANK = 2 * len(URGENCY_ORDER) - 1


def rank_in_queue(urgency: Urgency, *, arrived: bool) -> int:
    """Place in the queue, 0 first: by what becomes of the seed, and what is still on its way before the rest.

    Seed on its way is in nobody’s care at the bank, so the same kind of seed that has arrived comes after it.
    """
    return 2 * URGENCY_ORDER[urgency] + arrived


# The bank can note that the seed came in: while it looks, while the group mends, and after it went ahead.
CAN_ARRIVE = frozenset({SubmissionState.HANDED_IN, SubmissionState.RETURNED, SubmissionState.APPROVED})


class PhotographKind(StrEnum):
    """What a photograph shows."""

    PLANT = "plant"
    DIAGNOSTIC = "diagnostic part"
    FRUIT = "fruit or seed"
    HABITAT = "habitat"
    VOUCHER = "voucher"


class RemarkKind(StrEnum):
    """What a remark goes with."""

    RETURN = "return"
    DECLINE = "decline"
    APPROVE = "approve"
    NOTE = "note"


# Its group may write on a submission, and add and take away photographs, in these states alone.
WRITABLE = frozenset({SubmissionState.DRAFT, SubmissionState.RETURNED})
MOST_PHOTOGRAPHS = 30
