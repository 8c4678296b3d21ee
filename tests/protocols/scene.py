"""What the tests of issued sheets stand on: the Fell Group’s moss campion, and what changes around it."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any
from uuid import UUID

from hub.protocols import queries
from hub.protocols.models import IssuedSheet
from hub.protocols.renewals import renew_due
from hub.sites.actions import record_census
from hub.sites.rules import CensusMethod
from tests.cast import Cast
from tests.vetting.scene import TODAY, Scene, set_scene, sheet_for, surveyed_population, wanted_taxon

__all__ = ["TODAY", "Scene", "set_scene", "sheet_for", "surveyed_population", "wanted_taxon"]

LOOKED = {"plants_counted": 12, "poor_year": False}  # as the stage has it
LATER = timedelta(minutes=5)


def count(
    cast: Cast, population_id: UUID, *, fruiting: int = 400, by: str = "alice", on: date = TODAY, **more: Any
) -> None:
    """The plants are counted again, today unless told."""
    figures = {"plants": max(600, fruiting), "fruits_per_plant": 30, "seeds_per_fruit": 20, **LOOKED, **more}
    with cast.work(by) as work:
        record_census(
            work,
            population_id=population_id,
            counted_on=on,
            method=CensusMethod.COUNTED,
            fruiting_plants=fruiting,
            **figures,
        )


def current(cast: Cast, scene: Scene) -> IssuedSheet | None:
    """The sheet that holds now."""
    with cast.everywhere() as work:
        return queries.current_sheet(work, scene.adoption_id, scene.population_id)


def as_it_stands(cast: Cast, sheet_id: UUID) -> IssuedSheet:
    with cast.everywhere() as work:
        return queries.get_sheet(work, sheet_id)


def round_of(cast: Cast) -> int:
    """One round of renewals, a little after the cast's moment."""
    return renew_due(cast.house, now=cast.now + LATER)
