"""Censuses: dated counts, each kept as it was."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any
from uuid import UUID

from hub.audit.actions import record
from hub.audit.rules import Event
from hub.db.work import Work
from hub.sites import queries
from hub.sites.models import Census
from hub.sites.rules import CensusMethod
from hub.words import Refused, say


def record_census(
    work: Work,
    *,
    population_id: UUID,
    counted_on: date,
    method: CensusMethod,
    plants: int,
    plants_low: int | None = None,
    plants_high: int | None = None,
    fruiting_plants: int | None = None,
    **more: Any,
) -> Census:
    """Record one count. A mistake is mended by another census of the same day, which then counts.

    ``plants_low`` and ``plants_high`` are the 95 % interval; ``more`` are the other columns, as far as they
    are known. Raises Refused where the figures contradict each other.
    """
    population = queries.get_population(work, population_id)
    if counted_on > work.today:
        raise Refused(say("This day is still to come."), field="counted_on")
    check_interval(plants, plants_low, plants_high)
    check_fruiting(fruiting_plants, most := plants if plants_high is None else plants_high)
    check_sample(more, most if fruiting_plants is None else fruiting_plants)
    census = Census(
        bank_id=population.bank_id,
        site_id=population.site_id,
        population_id=population.id,
        counted_on=counted_on,
        method=method,
        plants=plants,
        plants_low=plants_low,
        plants_high=plants_high,
        fruiting_plants=fruiting_plants,
        noted_at=work.now,
        **more,
    )
    work.db.add(census)
    work.db.flush()
    record(work, Event.CENSUS_RECORDED, census, after={"counted_on": str(counted_on), "plants": plants})
    return census


def check_fruiting(fruiting_plants: int | None, most: int) -> None:
    if fruiting_plants is not None and fruiting_plants > most:
        raise Refused(say("No more plants can bear fruit than there are."), field="fruiting_plants")


def check_sample(figures: Mapping[str, Any], most: int) -> None:
    """Fruits are counted on plants that bear some, and an error is the error of a mean."""
    if (figures.get("plants_counted") or 0) > most:
        raise Refused(say("Fruits can be counted on no more plants than bear some."), field="plants_counted")
    for mean in ("fruits_per_plant", "seeds_per_fruit"):
        if figures.get(f"{mean}_se") is not None and figures.get(mean) is None:
            raise Refused(say("A standard error needs the mean that it belongs to."), field=mean)


def check_interval(plants: int, low: int | None, high: int | None) -> None:
    if (low is None) is not (high is None):
        field = "plants_low" if low is None else "plants_high"
        raise Refused(say("An interval needs both of its ends."), field=field)
    if low is not None and low > plants:
        raise Refused(say("The interval must begin at or below the number of plants."), field="plants_low")
    if high is not None and high < plants:
        raise Refused(say("The interval must end at or above the number of plants."), field="plants_high")
