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
from hub.protocols.sheet import Sheet
from hub.vetting import queries
from hub.vetting.collection import Collection
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
    """Of a later revision, what the one before it said does not count twice."""
    newest = queries.newest_revision(work, submission)
    replaced = queries.collection_of(newest).total_seeds if newest else 0
    left = sheet.headline.left_seeds.value
    return Share(
        seeds=collection.total_seeds,
        before=max(0, taken_under(work, submission.sheet_id) - replaced),
        allowed=None if left is None else int(left),
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
