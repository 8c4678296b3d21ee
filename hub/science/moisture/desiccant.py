"""How much silica gel or zeolite dries a bag of seed in a closed box."""

from __future__ import annotations

from enum import StrEnum

from hub.science.drying import target_weight
from hub.science.moisture.sources import BEADS, GEL_DRY, GEL_MEASURED, WATER
from hub.science.quantity import Estimate, Source, Unit, within
from hub.words import say

MOST_SAFETY = 10.0


class Desiccant(StrEnum):
    """What takes up the water, and how dry it is to leave the seed."""

    GEL_TO_15_RH = "gel_to_15_rh"
    GEL_TO_25_RH = "gel_to_25_rh"
    BEADS = "beads"


CAPACITY: dict[Desiccant, tuple[float, Source]] = {
    Desiccant.GEL_TO_15_RH: (0.08, GEL_DRY),
    Desiccant.GEL_TO_25_RH: (0.134, GEL_MEASURED),
    Desiccant.BEADS: (0.20, BEADS),
}
"""Grams of water a gram holds when the box has come to rest: at the humidity wanted, not that of the room."""


def water_to_remove(weight_g: float, moisture_percent: float, wanted_percent: float) -> Estimate:
    """Grams of water that leave seed of this weight and moisture until it is as dry as wanted."""
    dried = target_weight(weight_g, moisture_percent, wanted_percent)
    return Estimate.exact(weight_g - dried.value, Unit.GRAMS, WATER)


def desiccant_needed(
    weight_g: float,
    moisture_percent: float,
    wanted_percent: float,
    desiccant: Desiccant,
    *,
    safety: float = 1.0,
) -> Estimate:
    """Grams of freshly dried desiccant, ``safety`` (1 to 10) times what the water asks for."""
    times = within(safety, say("The safety factor"), Unit.TIMES, 1, MOST_SAFETY)
    capacity, source = CAPACITY[desiccant]
    water = water_to_remove(weight_g, moisture_percent, wanted_percent)
    fresh = say("The desiccant must come freshly dried from the oven; what has stood open holds less.")
    rough = say("What gel holds in so dry air is from memory: weigh the seed until it stays the same.")
    warnings = (fresh, rough) if desiccant is Desiccant.GEL_TO_15_RH else (fresh,)
    return Estimate.exact(times * water.value / capacity, Unit.GRAMS, source, *warnings)
