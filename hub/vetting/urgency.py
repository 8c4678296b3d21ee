"""How soon seed must be looked at, and by when it should be at the bank, as its sheet has it. Pure."""

from __future__ import annotations

from datetime import UTC, datetime, time, timedelta
from zoneinfo import ZoneInfo

from hub.protocols.sheet import Sheet
from hub.taxa.rules import FruitType
from hub.vetting.collection import AfterCare, Collection
from hub.vetting.rules import Urgency

LIVING_ROUTES = frozenset({"moist", "untested", "spores", "fast"})
FLESHY = frozenset({FruitType.FLESHY, FruitType.FLESHY_CONE})
DRIED = frozenset({AfterCare.AIR_DRIED, AfterCare.GEL_DRIED})


def urgency_of(sheet: Sheet, collection: Collection) -> Urgency:
    """Why it should be looked at sooner: seed that dies in drying or waiting, then seed that may rot."""
    if sheet.route in LIVING_ROUTES:
        return Urgency.ALIVE
    fleshy = sheet.case["taxon"].get("fruit_type") in FLESHY
    return Urgency.DAMP if fleshy or collection.after_care not in DRIED else Urgency.DRY


def deadline_of(sheet: Sheet, collection: Collection, zone: ZoneInfo) -> datetime | None:
    """When the seed should be at the bank: the sheet's hours after the end of collecting.

    Where no time of day was written down, the day is taken to have begun at midnight: the careful reading.
    """
    hours = sheet.headline.hours_to_bank.value
    if hours is None:
        return None
    clock = collection.finished_at or collection.started_at or time.min
    end = datetime.combine(collection.collected_on, clock, zone).astimezone(UTC)
    return end + timedelta(hours=float(hours))
