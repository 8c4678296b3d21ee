"""The table of rights: a seat holds a right when any one of its questions is answered yes."""

from __future__ import annotations

from collections.abc import Callable

from hub.rights.predicates import (
    anybody,
    belongs_to_a_group,
    coordinates,
    curates,
    has_a_seat,
    leads_a_group,
    runs_the_hub,
    signed_in,
    works_in_the_bank,
)
from hub.rights.right import Right
from hub.rights.scope import Scope

Question = Callable[[Scope], bool]

POLICY: dict[Right, tuple[Question, ...]] = {
    Right.PUBLIC_READ: (anybody,),
    Right.ACCOUNT_OWN: (signed_in,),
    Right.GROUP_READ: (belongs_to_a_group, curates),
    Right.GROUP_MANAGE: (leads_a_group,),
    Right.GROUP_APPROVE: (curates, runs_the_hub),
    Right.BANK_MANAGE: (curates,),
    Right.HUB_MANAGE: (runs_the_hub,),
    Right.AUDIT_READ: (curates, runs_the_hub),
    Right.CALCULATE: (belongs_to_a_group, works_in_the_bank, coordinates),
    Right.SPECIES_READ: (has_a_seat,),
    Right.SPECIES_EDIT: (curates,),
    Right.WANTED_EDIT: (curates,),
    Right.ADOPTION_READ: (belongs_to_a_group, curates),
    Right.ADOPTION_ASK: (leads_a_group,),
    Right.ADOPTION_DECIDE: (curates,),
    Right.SITE_READ: (belongs_to_a_group, works_in_the_bank),
    Right.SITE_EDIT: (leads_a_group, curates),
    Right.SITE_SHARE: (curates,),
    Right.PERMIT_RECORD: (curates,),
    Right.CENSUS_RECORD: (belongs_to_a_group, curates),
    Right.IDENTITY_VERIFY: (curates,),
    Right.SALVAGE_DECIDE: (curates,),
    Right.SHEET_READ: (belongs_to_a_group, works_in_the_bank),
    Right.SHEET_ISSUE: (leads_a_group, curates),
    Right.RULE_OVERRIDE: (curates,),
    Right.SUBMISSION_READ: (belongs_to_a_group, works_in_the_bank),
    Right.SUBMISSION_WRITE: (belongs_to_a_group,),
    Right.SUBMISSION_HAND_IN: (leads_a_group,),
    Right.SUBMISSION_BENCH: (works_in_the_bank,),
    Right.SUBMISSION_RECEIVE: (works_in_the_bank,),
    Right.SUBMISSION_VET: (curates,),
    Right.ACCESSION_READ: (belongs_to_a_group, works_in_the_bank),
    Right.LOT_READ: (works_in_the_bank,),
    Right.LOT_WORK: (works_in_the_bank,),
    Right.PROGRESS_READ: (has_a_seat,),
    Right.PROGRESS_STEER: (coordinates, curates),
}


def may(scope: Scope, right: Right) -> bool:
    """Whether this seat holds this right. A right without a row is held by nobody."""
    return any(question(scope) for question in POLICY.get(right, ()))
