"""Counts by species and district: the cells behind the rows, for gaps in words and for files."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from uuid import UUID

from sqlalchemy import func, select

from hub.adoptions.models import StageCount
from hub.adoptions.rules import Stage
from hub.db.work import Work
from hub.progress.queries.board import needed_by_place
from hub.progress.queries.years import RegionYear
from hub.progress.rules import missing


@dataclass
class Cell:
    """One species: populations needed by district (None: from anywhere), adoptions by district and stage."""

    needed: dict[UUID | None, int] = field(default_factory=dict)
    adoptions: dict[UUID, dict[Stage, int]] = field(default_factory=dict)

    @property
    def held(self) -> dict[UUID, int]:
        return {district: sum(stages.values()) for district, stages in self.adoptions.items()}

    @property
    def missing(self) -> Mapping[UUID | None, int]:
        return missing(self.needed, self.held)


def cells(work: Work, year: RegionYear, taxon_ids: Iterable[UUID]) -> dict[UUID, Cell]:
    """The cells of some species, in two questions."""
    found = {taxon_id: Cell() for taxon_id in taxon_ids}
    asked = needed_by_place(year)
    for taxon_id, district_id, populations in work.db.execute(
        select(asked).where(asked.c.taxon_id.in_(found))
    ):
        found[taxon_id].needed[district_id] = int(populations)
    counts = (
        select(StageCount.taxon_id, StageCount.district_id, StageCount.stage, func.sum(StageCount.adoptions))
        .where(
            StageCount.season_id.in_(year.season_ids),
            StageCount.taxon_id.in_(found),
            StageCount.adoptions > 0,
        )
        .group_by(StageCount.taxon_id, StageCount.district_id, StageCount.stage)
    )
    for taxon_id, district_id, stage, adoptions in work.db.execute(counts):
        found[taxon_id].adoptions.setdefault(district_id, {})[stage] = int(adoptions)
    return found
