"""Every right in the hub, as ``resource:action``. Routes name one; the policy says who holds it."""

from __future__ import annotations

from enum import StrEnum


class Right(StrEnum):
    """What a seat may be allowed to do."""

    # Open to every visitor, signed in or not.
    PUBLIC_READ = "public:read"
    # Whoever is signed in.
    ACCOUNT_OWN = "account:own"

    GROUP_READ = "group:read"
    GROUP_MANAGE = "group:manage"
    GROUP_APPROVE = "group:approve"
    BANK_MANAGE = "bank:manage"
    HUB_MANAGE = "hub:manage"
    AUDIT_READ = "audit:read"

    CALCULATE = "calculators:use"

    SPECIES_READ = "species:read"
    SPECIES_EDIT = "species:edit"
    WANTED_EDIT = "wanted:edit"

    ADOPTION_READ = "adoption:read"
    ADOPTION_ASK = "adoption:ask"
    ADOPTION_DECIDE = "adoption:decide"

    SITE_READ = "site:read"
    SITE_EDIT = "site:edit"
    SITE_SHARE = "site:share"
    PERMIT_RECORD = "permit:record"
    CENSUS_RECORD = "census:record"
    IDENTITY_VERIFY = "identity:verify"
    SALVAGE_DECIDE = "salvage:decide"

    SHEET_READ = "sheet:read"
    SHEET_ISSUE = "sheet:issue"
    RULE_OVERRIDE = "rule:override"

    SUBMISSION_READ = "submission:read"
    SUBMISSION_WRITE = "submission:write"
    SUBMISSION_HAND_IN = "submission:hand-in"
    SUBMISSION_BENCH = "submission:bench"
    SUBMISSION_RECEIVE = "submission:receive"
    SUBMISSION_VET = "submission:vet"

    ACCESSION_READ = "accession:read"
    LOT_READ = "lot:read"
    LOT_WORK = "lot:work"

    PROGRESS_READ = "progress:read"
    PROGRESS_STEER = "progress:steer"
