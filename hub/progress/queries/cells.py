"""Counts by species and district: the cells behind the rows, for gaps in words and for files."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from uuid import UUID

from sqlalchemy import Select, func, select

from hub.adoptions.models import StageCount
from hub.adoptions.rules import Stage
from hub.db.work import Work
from hub.progress.queries.years import RegionYear
from hub.progress.rules import missing
from hub.taxa.models import Ecoregion, Need, Wanted


@dataclass
class Cell:
    """One species: populations needed by district (None: from any), adoptions by district and stage.

    ``origins`` are the ecoregions that the needs of a district name, an empty name standing for any of them.
    """

    needed: dict[UUID | None, int] = field(default_factory=dict)
    origins: dict[UUID | None, set[str]] = field(default_factory=dict)
    adoptions: dict[UUID, dict[Stage, int]] = field(default_factory=dict)

    @property
    def held(self) -> dict[UUID, int]:
        return {district: sum(stages.values()) for district, stages in self.adoptions.items()}

    @property
    def missing(self) -> Mapping[UUID | None, int]:
        return missing(self.needed, self.held)

    def ecoregions(self, district_id: UUID | None) -> list[str]:
        """The ecoregions from which seed is needed in a district; none where any will do."""
        found = self.origins.get(district_id, {""})
        return [] if "" in found else sorted(found)


def cells(work: Work, year: RegionYear, taxon_ids: Iterable[UUID]) -> dict[UUID, Cell]:
    """The cells of some species, in two questions."""
    found = {taxon_id: Cell() for taxon_id in taxon_ids}
    for taxon_id, district_id, ecoregion, populations in work.db.execute(needs_of(year, found)):
        cell = found[taxon_id]
        cell.needed[district_id] = cell.needed.get(district_id, 0) + int(populations)
        cell.origins.setdefault(district_id, set()).add(ecoregion or "")
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


def needs_of(year: RegionYear, taxon_ids: Iterable[UUID]) -> Select[UUID, UUID | None, str | None, int]:
    """Populations needed by species, district and the name of the ecoregion; one where nothing is said."""
    return (
        select(
            Wanted.taxon_id, Need.district_id, Ecoregion.name, func.sum(func.coalesce(Need.populations, 1))
        )
        .outerjoin(Need, Need.wanted_id == Wanted.id)
        .outerjoin(Ecoregion, Ecoregion.id == Need.ecoregion_id)
        .where(Wanted.season_id.in_(year.season_ids), Wanted.taxon_id.in_(taxon_ids))
        .group_by(Wanted.taxon_id, Need.district_id, Ecoregion.name)
    )
