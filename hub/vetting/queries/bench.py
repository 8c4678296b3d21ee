"""The curator’s queue: what waits, the most urgent first, and findings that are alike.

What waits is found through the index on bank, state and urgency, so that the past costs nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from typing import Any
from uuid import UUID

from sqlalchemy import ColumnElement, Row, Select, distinct, exists, func, literal, or_, select, tuple_

from hub.accounts.models import Person
from hub.audit.models import AuditEntry
from hub.audit.queries import history_of
from hub.audit.rules import Event
from hub.db.work import Work
from hub.groups.models import Group
from hub.sites.models import Population
from hub.taxa.models import Taxon
from hub.vetting.models import FindingRecord, Submission
from hub.vetting.rules import FindingState, Severity, SubmissionState, Urgency

URGENT = (Submission.urgency_rank, Submission.queue_at, Submission.id)
BENCH_ORDERS: dict[str, Sequence[Any]] = {
    "urgent": URGENT,
    "newest": (Submission.handed_in_at.desc(), Submission.id),
    "oldest": (Submission.handed_in_at, Submission.id),
    "number": (Submission.number, Submission.id),
    "number-down": (Submission.number.desc(), Submission.id),
    "species": (Taxon.canonical, Submission.number, Submission.id),
    "species-down": (Taxon.canonical.desc(), Submission.number.desc(), Submission.id),
    "group": (Group.name, Submission.number, Submission.id),
    "group-down": (Group.name.desc(), Submission.number.desc(), Submission.id),
    "gravest": (Submission.open_stops.desc(), Submission.open_queries.desc(), Submission.id),
}
COUNTED = 1_000  # what waits is counted so far, and no further
ALIKE_ORDERS: dict[str, Sequence[Any]] = {"urgent": (*URGENT, FindingRecord.about, FindingRecord.id)}


class Gravity(StrEnum):
    """What still stands open of a submission."""

    STOPS = "stops"
    QUERIES = "queries"
    CLEAR = "clear"


_GRAVITY: dict[Gravity, ColumnElement[bool]] = {
    Gravity.STOPS: Submission.open_stops > 0,
    Gravity.QUERIES: (Submission.open_stops == 0) & (Submission.open_queries > 0),
    Gravity.CLEAR: (Submission.open_stops == 0) & (Submission.open_queries == 0),
}

# An open finding of its submission’s newest revision.
OPEN_NOW = (
    (FindingRecord.submission_id == Submission.id)
    & (FindingRecord.revision == Submission.revision)
    & (FindingRecord.state == FindingState.OPEN)
)


def in_state(work: Work, state: SubmissionState = SubmissionState.HANDED_IN) -> ColumnElement[bool]:
    """The submissions of the asker’s bank in one state."""
    return (Submission.bank_id == work.scope.own_bank_id) & (Submission.state == state)


def bench(
    work: Work,
    *,
    search: str | None = None,
    state: SubmissionState | None = None,
    urgency: Urgency | None = None,
    taxon: UUID | None = None,
    group: UUID | None = None,
    open: Gravity | None = None,
    mine: bool = False,
) -> Select[Submission, Taxon, str, str]:
    """Submissions with their taxon, the name of their group and the code of their population."""
    found = (
        select(Submission, Taxon, Group.name, Population.code)
        .join(Taxon, Taxon.id == Submission.taxon_id)
        .join(Group, Group.id == Submission.group_id)
        .join(Population, Population.id == Submission.population_id)
        .where(in_state(work, state or SubmissionState.HANDED_IN))
    )
    if search:
        columns = (Submission.number, Taxon.canonical, Taxon.vernacular, Group.name, Population.code)
        found = found.where(or_(*(column.icontains(search, autoescape=True) for column in columns)))
    wanted = {Submission.urgency: urgency, Submission.taxon_id: taxon, Submission.group_id: group}
    found = found.where(*(column == value for column, value in wanted.items() if value is not None))
    if mine:
        found = found.where(Submission.decided_by == work.scope.person_id)
    return found.where(_GRAVITY[open]) if open is not None else found


def bench_choices(work: Work, state: SubmissionState) -> tuple[list[tuple[UUID, str]], ...]:
    """Id and name of the species, and of the groups, with a submission in this state: one question."""
    of_taxon = exists().where(in_state(work, state), Submission.taxon_id == Taxon.id)
    of_group = exists().where(in_state(work, state), Submission.group_id == Group.id)
    taxa = select(literal("taxon"), Taxon.id, Taxon.canonical.label("name")).where(of_taxon)
    groups = select(literal("group"), Group.id, Group.name).where(of_group)
    rows = work.db.execute(taxa.union_all(groups).order_by("name")).all()
    return tuple([(key, name) for kind, key, name in rows if kind == wanted] for wanted in ("taxon", "group"))


def count_waiting(work: Work) -> int:
    """Submissions that wait for the asker’s bank; beyond ``COUNTED``, one more than that, not exact."""
    some = select(Submission.id).where(in_state(work)).limit(COUNTED + 1).subquery()
    return work.db.scalar(select(func.count()).select_from(some)) or 0


def open_notes(work: Work, submissions: Iterable[Submission]) -> dict[UUID, int]:
    """Open notes of the newest revision of each of some submissions."""
    found = (
        select(Submission.id, func.count())
        .join(FindingRecord, OPEN_NOW)
        .where(Submission.id.in_([each.id for each in submissions]), FindingRecord.severity == Severity.NOTE)
        .group_by(Submission.id)
    )
    return {row[0]: row[1] for row in work.db.execute(found)}


def alike(work: Work) -> list[Row[Any]]:
    """Check, severity, open findings and submissions they are of, among all that waits; the gravest first."""
    found = (
        select(
            FindingRecord.check,
            FindingRecord.severity,
            func.count().label("findings"),
            func.count(distinct(Submission.id)).label("submissions"),
        )
        .join(Submission, OPEN_NOW)
        .where(in_state(work))
        .group_by(FindingRecord.check, FindingRecord.severity)
    )
    worst_first = list(Severity)
    rows: list[Row[Any]] = list(work.db.execute(found))
    return sorted(rows, key=lambda row: (worst_first.index(row.severity), -row.findings, row.check))


def findings_alike(
    work: Work, *, check: str, severity: Severity
) -> Select[FindingRecord, Submission, Taxon, str]:
    """Every open finding of one check and severity, with its submission, species and group."""
    return (
        select(FindingRecord, Submission, Taxon, Group.name)
        .join(Submission, OPEN_NOW)
        .join(Taxon, Taxon.id == Submission.taxon_id)
        .join(Group, Group.id == Submission.group_id)
        .where(in_state(work), FindingRecord.check == check, FindingRecord.severity == severity)
    )


def neighbour(work: Work, submission: Submission, *, before: bool) -> UUID | None:
    """The submission next to this one in the queue, before or after it; no deadline comes last."""
    here = (submission.urgency_rank, submission.queue_at, submission.id)
    beyond = tuple_(*URGENT) < here if before else tuple_(*URGENT) > here
    order = [place.desc() if before else place for place in URGENT]
    found = select(Submission.id).where(in_state(work), beyond).order_by(*order).limit(1)
    return work.db.scalars(found).one_or_none()


@dataclass(frozen=True)
class Happened:
    """One thing that was done with a submission: when, by whom, and why.

    Either it came to a state, or its seed was noted as ``arrived``, or that was taken back (False).
    """

    at: datetime
    by: str
    reason: str
    after: SubmissionState | None = None
    arrived: bool | None = None


def history(work: Work, submission: Submission) -> list[Happened]:
    """Every move of a submission and of its seed that this seat may see, the first first."""
    entries = history_of(work, thing_kind="submission", thing_id=str(submission.id))
    told = [entry for entry in entries if entry.event in (Event.SUBMISSION_MOVED, Event.ARRIVAL_NOTED)]
    people = select(Person.id, Person.name).where(Person.id.in_({each.person_id for each in told}))
    names = {row.id: row.name for row in work.db.execute(people)}
    return [happened(entry, names.get(entry.person_id, "") if entry.person_id else "") for entry in told]


def happened(entry: AuditEntry, by: str) -> Happened:
    if entry.event == Event.ARRIVAL_NOTED:
        return Happened(entry.at, by, entry.reason, arrived=entry.after["arrived_at"] is not None)
    return Happened(entry.at, by, entry.reason, after=SubmissionState(entry.after["state"]))
