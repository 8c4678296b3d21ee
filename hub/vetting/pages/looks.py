"""What several of these pages show alike: facts, tallies, and the share of what the sheet allows."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any
from uuid import UUID

from hub.collecting.queries import taken_under
from hub.db.work import Work
from hub.groups import queries as groups
from hub.groups.role_words import BANDS
from hub.groups.rules import AgeBand
from hub.protocols.sheet import Section, Sheet
from hub.vetting import queries
from hub.vetting.collection import Collection, most_by_year
from hub.vetting.models import Submission
from hub.vetting.telling import TALLY, facts, tally_facts
from hub.words import Words, say_n


@dataclass(frozen=True)
class Share:
    """The seeds of a collection beside what its sheet lets the group take; None where that is not known."""

    seeds: int
    before: int  # handed in under the same sheet already
    allowed: int | None

    @property
    def part(self) -> float | None:
        return (self.before + self.seeds) / self.allowed if self.allowed else None

    @property
    def too_many(self) -> bool:
        return self.allowed is not None and self.before + self.seeds > self.allowed


def share_of(work: Work, submission: Submission, sheet: Sheet, collection: Collection) -> Share:
    left = sheet.headline.left_seeds.value
    return Share(
        seeds=collection.seeds_taken,
        before=taken_before(work, submission),
        allowed=None if left is None else int(left),
    )


def taken_before(work: Work, submission: Submission) -> int:
    """Seeds handed in under the same sheet by others of the group’s hand-ins.

    Of a later revision, what those before it said does not count twice.
    """
    own = sum(most_by_year(queries.handed_in_so_far(work, submission)).values())
    return max(0, taken_under(work, submission.sheet_id) - own)


def left_of(work: Work, submission: Submission, sheet: Sheet) -> Words:
    """What the group may still take under a sheet, and why that is less than the sheet said."""
    allowed, before = sheet.headline.left_seeds, taken_before(work, submission)
    if allowed.value is None or not before:
        return allowed.text
    return say_n(
        "Your group may still take {n} seed: {allowed} by its sheet, less {before} handed in before.",
        "Your group may still take {n} seeds: {allowed} by its sheet, less {before} handed in before.",
        n=max(0, int(allowed.value) - before),
        allowed=int(allowed.value),
        before=before,
    )


def told_facts(work: Work, collection: Collection) -> list[tuple[Words, Any]]:
    """Everything that was said, by name; what was left out is left out here too."""
    return [
        (name, crew_words(work, str(value)) if path == "crew_id" else value)
        for path, name, value in facts(collection)
        if value is not None
    ]


def crew_words(work: Work, crew_id: str) -> Words | str:
    """A crew as evidence of who collected: its nickname, how many pupils it has, and how old they are."""
    crew = groups.seen_crew(work, UUID(crew_id))
    if crew is None:
        return "–"
    return say_n(
        "{nickname}: {n} pupil, {ages}",
        "{nickname}: {n} pupils, {ages}",
        n=crew.headcount,
        nickname=crew.nickname,
        ages=BANDS[AgeBand(crew.age_band)],
    )


def tally_heads() -> list[Words]:
    return [name for name, _ in TALLY.values()]


def tally_rows(collection: Collection) -> list[list[Any]]:
    """One row for each mother."""
    return [[value for _, _, value in tally_facts(each)] for each in collection.tallies]


def specimen_asked(sheet: Sheet) -> bool:
    """Whether the sheet lets anybody press a specimen: of rare plants and of few it does not."""
    lines = sheet.sections.get(Section.PAPERWORK, ())
    return not any(rule.startswith("paper.no-voucher") for line in lines for rule in line.rules)
