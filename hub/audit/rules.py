"""Every event that the audit chain records, and the digest that links one entry to the next."""

from __future__ import annotations

import json
from enum import StrEnum
from hashlib import sha256
from typing import Any

GENESIS = "0" * 64


class Event(StrEnum):
    """What happened, as ``subject:verb``."""

    SIGNED_IN = "account:signed-in"
    SIGN_IN_REFUSED = "account:sign-in-refused"
    SIGNED_OUT = "account:signed-out"
    PASSWORD_CHANGED = "account:password-changed"  # noqa: S105  an event's name
    FACTOR_ON = "account:second-factor-on"
    FACTOR_OFF = "account:second-factor-off"
    FACTOR_RESET = "account:second-factor-reset"
    RECOVERY_RENEWED = "account:recovery-codes-renewed"
    RECOVERY_USED = "account:recovery-code-used"
    ACCOUNT_OPENED = "account:opened"
    ACCOUNT_CLOSED = "account:closed"
    TOKEN_MADE = "token:made"  # noqa: S105  an event's name
    TOKEN_ENDED = "token:ended"  # noqa: S105  an event's name

    REGION_MADE = "region:made"
    DISTRICT_ADDED = "district:added"
    BANK_MADE = "bank:made"
    BANK_CHANGED = "bank:changed"
    GROUP_ASKED = "group:asked-to-join"
    GROUP_MOVED = "group:moved"
    SEAT_TAKEN = "seat:taken"
    SEAT_ENDED = "seat:ended"
    INVITED = "invitation:sent"
    INVITATION_WITHDRAWN = "invitation:withdrawn"
    CREW_CHANGED = "crew:changed"

    TAXON_ADDED = "taxon:added"
    TAXON_CHANGED = "taxon:changed"
    STANDING_CHANGED = "taxon:standing-changed"
    SEASON_CHANGED = "season:changed"
    WANTED_CHANGED = "wanted:changed"
    WANTED_IMPORTED = "wanted:imported"

    SITE_OPENED = "site:opened"
    SITE_CHANGED = "site:changed"
    SITE_SHARED = "site:shared"
    PERMISSION_MOVED = "permission:moved"
    PERMIT_RECORDED = "permit:recorded"
    PERMIT_ENDED = "permit:ended"
    POPULATION_ADDED = "population:added"
    POPULATION_CHANGED = "population:changed"
    CENSUS_RECORDED = "census:recorded"
    SALVAGE_MOVED = "salvage:moved"

    ADOPTION_MOVED = "adoption:moved"
    ADOPTION_ADVANCED = "adoption:advanced"
    POPULATION_HELD = "adoption:population-held"
    POPULATION_LET_GO = "adoption:population-let-go"

    SHEET_ISSUED = "sheet:issued"
    SHEET_REPLACED = "sheet:replaced"
    OVERRIDE_MADE = "rule:overridden"
    SIGNED_OFF = "sheet:signed-off"
    OVERRIDE_ENDED = "rule:override-ended"
    TAKE_ENTERED = "take:entered"

    SUBMISSION_BEGUN = "submission:begun"
    SUBMISSION_MOVED = "submission:moved"
    ARRIVAL_NOTED = "submission:arrival-noted"
    FINDING_SETTLED = "finding:settled"
    PHOTOGRAPH_ADDED = "photograph:added"
    PHOTOGRAPH_REMOVED = "photograph:removed"
    LOCALITY_READ = "locality:read"

    ACCESSION_MADE = "accession:made"
    ACCESSION_MOVED = "accession:moved"
    LOT_ENTERED = "lot:entered"
    LOT_PLACED = "lot:placed"


def link(previous: str, facts: dict[str, Any]) -> str:
    """The digest of an entry: SHA-256 over the previous digest and the entry's facts in canonical JSON."""
    canonical = json.dumps(facts, sort_keys=True, separators=(",", ":"), ensure_ascii=False, default=str)
    return sha256(f"{previous}\n{canonical}".encode()).hexdigest()
