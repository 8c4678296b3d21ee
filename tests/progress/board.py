"""A year's list and counts made out of the air, for what must hold for all of them."""

from __future__ import annotations

from uuid import UUID

from hub.adoptions.models import StageCount
from hub.adoptions.rules import Stage
from hub.taxa.models import Need, Wanted
from tests.adoptions.scene import species
from tests.cast import Cast


def plant(cast: Cast, name: str, **traits: object) -> UUID:
    """A species, on no list yet."""
    with cast.everywhere() as work:
        taxon = species(name, **traits)
        work.db.add(taxon)
        work.db.flush()
        return taxon.id


def want(cast: Cast, taxon_id: UUID, *needs: tuple[int, UUID | None], far: bool = False) -> None:
    """Put it on the season's list, with so many populations from each district, or from anywhere."""
    season = cast.far_season if far else cast.season
    with cast.everywhere() as work:
        line = Wanted(season_id=season.id, taxon_id=taxon_id, priority=1, note="")
        work.db.add(line)
        work.db.flush()
        work.db.add_all(
            Need(wanted_id=line.id, populations=count, district_id=district) for count, district in needs
        )


def count(
    cast: Cast, taxon_id: UUID, district_id: UUID, stage: Stage, adoptions: int, *, far: bool = False
) -> None:
    """So many adoptions stand at a stage."""
    season = cast.far_season if far else cast.season
    with cast.everywhere() as work:
        work.db.add(
            StageCount(
                season_id=season.id, taxon_id=taxon_id, district_id=district_id, stage=stage,
                adoptions=adoptions,
            )
        )  # fmt: skip
