"""Words for the kinds and states that these pages name."""

from __future__ import annotations

from hub.vetting.rules import PhotographKind, SubmissionState
from hub.words import Words, say

KINDS: dict[PhotographKind, Words] = {
    PhotographKind.PLANT: say("the whole plant"),
    PhotographKind.DIAGNOSTIC: say("the parts that tell the species apart"),
    PhotographKind.FRUIT: say("fruit or seed"),
    PhotographKind.HABITAT: say("the habitat"),
    PhotographKind.VOUCHER: say("the pressed specimen"),
}
STATES: dict[SubmissionState, Words] = {
    SubmissionState.DRAFT: say("Draft"),
    SubmissionState.HANDED_IN: say("Handed in"),
    SubmissionState.RETURNED: say("Returned"),
    SubmissionState.APPROVED: say("Approved"),
    SubmissionState.DECLINED: say("Declined"),
    SubmissionState.WITHDRAWN: say("Withdrawn"),
}
