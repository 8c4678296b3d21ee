"""What is known of one adopted species, and what a step of its path is made of."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from typing import Any

from hub.adoptions.rules import AdoptionState
from hub.sites.rules import PermissionState
from hub.taxa.rules import StorageBehaviour
from hub.vetting.rules import SubmissionState
from hub.words import Words


class StepState(StrEnum):
    """Where a step stands, as the path draws it."""

    DONE = "done"
    NEXT = "next"
    LATER = "later"
    UNNEEDED = "unneeded"  # the adoption is fulfilled without it


@dataclass(frozen=True)
class Way:
    """A button: which page, with what in its address, and what stands on it."""

    label: Words
    endpoint: str
    values: Mapping[str, Any]
    posts: bool = False  # it does something, so it is a form and not a link


@dataclass(frozen=True)
class Step:
    """One bud on the path."""

    title: Words
    done: bool
    state: StepState = StepState.LATER
    day: Words | None = None
    usually: Words | None = None  # when it is, as a rule, as long as it is still to come
    person: Words | None = None
    about: Words | None = None
    ways: tuple[Way, ...] = ()


@dataclass(frozen=True)
class Known:
    """All that is known of one adoption at one population; ``None`` for what there is not yet."""

    adoption_id: Any
    state: AdoptionState
    adopted_on: date
    today: date
    storage: StorageBehaviour
    ripens_on: date | None  # first day of the first month in which fruit is usually ripe
    ripe: Words | None  # those months in words
    population_id: Any = None
    site_id: Any = None
    owner: str = ""
    permission: PermissionState | None = None
    permission_holds: bool = False
    permission_asked_on: date | None = None
    permission_until: date | None = None
    counted_on: date | None = None
    plants: int | None = None
    sheet_id: Any = None
    sheet_number: str = ""
    sheet_status: str = ""
    kept_seeds: int = 0  # what the take ledger keeps free for this group
    submission_id: Any = None
    submission: SubmissionState | None = None
    collected_on: date | None = None
    bank: str = ""
    due: str = ""  # day and hour by which the seed must be at the bank, as the reader writes them
    overdue: bool = False
    span: Words | None = None  # how long the sheet gives the seed from plant to bank
    arrived: bool = False  # the bank has the seed, or the group says that it brought it
    accession_number: str = ""
    became: Words | None = None  # what the bank is doing with it
    safe: bool = False  # stored, or growing in a living collection

    @property
    def handed_in(self) -> bool:
        return self.submission in (SubmissionState.HANDED_IN, SubmissionState.APPROVED)

    @property
    def written_down(self) -> bool:
        return self.submission in (SubmissionState.DRAFT, SubmissionState.RETURNED) or self.handed_in

    @property
    def ready(self) -> bool:
        return self.sheet_status == "ready"
