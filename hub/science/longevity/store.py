"""How dry and how cold seed is kept, and where the viability equation holds at all."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from hub.science.quantity import Unit, within
from hub.words import Refused, Words, say

WETTEST_PERCENT = 15.0
"""Lettuce behaves otherwise above this moisture (published)."""

DRIEST_PERCENT = 2.0
SURELY_ABOVE_PERCENT = 6.2
"""More drying stops to help somewhere between, from niger to pea (published: Ellis, Hong & Roberts 1989)."""

COLDEST_C = -40.0
"""Freezers end about here; the deeper cold of cryopreservation is another matter (our own default)."""

COLDEST_TESTED_C = -13.0
HOTTEST_C = 90.0
"""The range of the published experiments (Dickie et al. 1990)."""


class Behaviour(StrEnum):
    """What the seed bears of drying."""

    ORTHODOX = "orthodox"
    INTERMEDIATE = "intermediate"
    RECALCITRANT = "recalcitrant"
    UNKNOWN = "unknown"


@dataclass(frozen=True, kw_only=True)
class Store:
    """Moisture in per cent of fresh weight (0 to 15), temperature in °C, and what the seed bears.

    ``critical_percent`` (2 to 15) is the moisture below which more drying gains nothing, where it is
    known: that in equilibrium with 10.6 % relative humidity. Seed that cannot be dried is ``Refused``.
    """

    moisture_percent: float
    temperature_c: float
    behaviour: Behaviour
    critical_percent: float | None = None

    def __post_init__(self) -> None:
        """Refuse what lies beyond every experiment, and seed that the equation is not about."""
        if self.behaviour in (Behaviour.INTERMEDIATE, Behaviour.RECALCITRANT):
            raise Refused(say("Seed that drying or cold harms has no life that could be reckoned this way."))
        within(self.moisture_percent, say("The moisture"), Unit.PERCENT, 0, WETTEST_PERCENT)
        checked_temperature(self.temperature_c, COLDEST_C)
        if self.critical_percent is not None:
            critical = say("The moisture below which drying gains nothing")
            within(self.critical_percent, critical, Unit.PERCENT, DRIEST_PERCENT, WETTEST_PERCENT)

    @property
    def counted_percent(self) -> float:
        """The moisture to reckon with: never below where drying still helps."""
        return max(self.moisture_percent, self.critical_percent or DRIEST_PERCENT)

    @property
    def warnings(self) -> tuple[Words, ...]:
        """Where the store goes beyond what was tested."""
        warnings = []
        if self.moisture_percent < self.counted_percent:
            warnings.append(
                say("Below {low} % moisture drying gains nothing more.", low=self.counted_percent)
            )
        elif self.critical_percent is None and self.moisture_percent < SURELY_ABOVE_PERCENT:
            warnings.append(say("In some species so dry a seed gains nothing more, so this may be too long."))
        if self.temperature_c < COLDEST_TESTED_C:
            warnings.append(say("Experiments went down to −13 °C. Below that this carries their line on."))
        if self.behaviour is Behaviour.UNKNOWN:
            warnings.append(say("This holds only if the seed bears drying. Test that first."))
        return tuple(warnings)


def checked_temperature(celsius: float, coldest: float) -> float:
    """The temperature itself, or ``OutOfRange`` outside ``coldest`` to 90 °C."""
    return within(celsius, say("The temperature"), Unit.DEGREES_CELSIUS, max(coldest, COLDEST_C), HOTTEST_C)
