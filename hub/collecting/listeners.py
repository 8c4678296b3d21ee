"""What a new sheet allows is kept free for it; what a replaced one still kept is given back."""

from __future__ import annotations

from sqlalchemy import select

from hub.audit.listeners import when
from hub.audit.rules import Event
from hub.collecting.actions import allow, release, reserve
from hub.db.work import Work
from hub.protocols.models import IssuedSheet
from hub.protocols.sheet import Sheet, Status
from hub.taxa.models import Season


@when(Event.SHEET_ISSUED)
def keep_free(work: Work, issued: IssuedSheet) -> None:
    """Set the population's allowance as the sheet reckons it, and reserve what the group may take.

    A sheet that may not be used sets nothing: it prints no allowance even where others hold all of it.
    """
    sheet = Sheet.from_json(issued.body)
    if sheet.status is not Status.READY:
        return
    year = year_of(work, issued)
    allowed = sheet.headline.allowance_seeds.value
    allow(work, population_id=issued.population_id, year=year, seeds=int(allowed or 0))
    reserve(work, sheet=issued, year=year, seeds=int(sheet.headline.left_seeds.value or 0))


@when(Event.SHEET_REPLACED)
def set_free(work: Work, issued: IssuedSheet) -> None:
    """A sheet that no longer holds keeps nothing."""
    release(work, sheet=issued, year=year_of(work, issued))


def year_of(work: Work, issued: IssuedSheet) -> int:
    return work.db.scalars(select(Season.year).where(Season.id == issued.season_id)).one()
