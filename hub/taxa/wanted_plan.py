"""What taking in a list would do: each species added, changed, taken off or left as it is."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any, NamedTuple, Self
from uuid import UUID

from hub.taxa.models import Wanted
from hub.taxa.needs import NeedGiven, as_told
from hub.taxa.wanted_file import Problem


class Kind(StrEnum):
    """What becomes of one species' line."""

    ADDED = "added"
    CHANGED = "changed"
    TAKEN_OFF = "taken_off"
    UNCHANGED = "unchanged"


class Line(NamedTuple):
    """A species' line: its priority, its note, and its needs in a fixed order."""

    priority: int
    note: str
    needs: tuple[NeedGiven, ...]

    @classmethod
    def of(cls, priority: int, note: str, needs: Iterable[NeedGiven]) -> Self:
        ordered = sorted(needs, key=lambda need: (str(need.ecoregion_id or ""), str(need.district_id or "")))
        return cls(priority, note, tuple(ordered))

    @property
    def told(self) -> list[Any]:
        return [self.priority, self.note, as_told(self.needs)]


@dataclass(frozen=True)
class Change:
    """One species' line before and after; ``stored`` is the row that there is."""

    taxon_id: UUID
    name: str
    before: Line | None
    after: Line | None
    stored: Wanted | None = None

    @property
    def kind(self) -> Kind:
        if self.before is None:
            return Kind.ADDED
        if self.after is None:
            return Kind.TAKEN_OFF
        return Kind.UNCHANGED if self.before == self.after else Kind.CHANGED


@dataclass
class Plan:
    """Every species that the file names, by name, and what is wrong with the file."""

    changes: list[Change] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    remarks: list[Problem] = field(default_factory=list)

    def of(self, kind: Kind) -> list[Change]:
        return [change for change in self.changes if change.kind is kind]

    @property
    def real_changes(self) -> list[Change]:
        return [change for change in self.changes if change.kind is not Kind.UNCHANGED]

    @property
    def counts(self) -> dict[str, int]:
        return {kind.value: len(self.of(kind)) for kind in Kind}

    @property
    def digest(self) -> str:
        """Stands for all that would be done, so that a confirmation can be held to what was shown."""
        facts = [
            [str(each.taxon_id), each.before and each.before.told, each.after and each.after.told]
            for each in self.changes
        ]
        return hashlib.sha256(json.dumps(facts).encode()).hexdigest()
