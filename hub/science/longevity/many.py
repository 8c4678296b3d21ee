"""The life of very many lots in one call, as a whole bank asks for it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

from hub.science.longevity.constants import LARGEST_K_E_ERROR
from hub.science.longevity.equation import DAYS_A_YEAR, GREATEST_SHARE, LEAST_SHARE
from hub.science.longevity.store import COLDEST_C, DRIEST_PERCENT, HOTTEST_C, WETTEST_PERCENT
from hub.science.quantity import MOST, OutOfRange, Unit, normal_deviate, within
from hub.words import Refused, Words, say

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]


LIMITS: dict[str, tuple[Words, Unit, float, float]] = {
    "k_e": (say("The constant K_E"), Unit.NUMBER, 0, 20),
    "c_w": (say("The constant C_W"), Unit.NUMBER, 0, 20),
    "c_h": (say("The constant C_H"), Unit.NUMBER, 0, 1),
    "c_q": (say("The constant C_Q"), Unit.NUMBER, 0, 0.1),
    "moisture_percent": (say("The moisture"), Unit.PERCENT, 0, WETTEST_PERCENT),
    "temperature_c": (say("The temperature"), Unit.DEGREES_CELSIUS, COLDEST_C, HOTTEST_C),
    "initial_share": (say("The viability at first"), Unit.SHARE, LEAST_SHARE, GREATEST_SHARE),
}
"""Of every lot; those of the constants reach far beyond any species (our own default)."""


@dataclass(frozen=True, eq=False)
class Lots:
    """One number a lot in each array, all of one length: constants, store, and share alive at first.

    Limits are those of a single lot: moisture 0 to 15 %, temperature down to -40 °C and to where the
    equation turns over, shares 0.001 to 0.999. Only seed that bears drying belongs here.
    """

    k_e: Array
    c_w: Array
    c_h: Array
    c_q: Array
    moisture_percent: Array
    temperature_c: Array
    initial_share: Array

    def __post_init__(self) -> None:
        """Refuse the whole when one lot is beyond the limits, NaN included."""
        if len({array.shape for array in vars(self).values()}) > 1:
            raise Refused(say("Each lot needs every figure."))
        within(self.k_e.size, say("The number of lots"), Unit.VALUES, 1, MOST)
        for name, (quantity, unit, low, high) in LIMITS.items():
            array = getattr(self, name)
            if not low <= array.min() <= array.max() <= high:
                raise OutOfRange(quantity, unit, low, high)
        if (self.c_h + 2 * self.c_q * self.temperature_c).min() < 0:
            raise Refused(say("A lot is kept colder than the equation of its species holds."))


class Lives(NamedTuple):
    """Years of each lot; the interval reaches from years / times to years x times."""

    years: Array
    times: float


def years_to_share_of_initial(lots: Lots, kept_share: float = 0.85, *, level: float = 0.95) -> Lives:
    """Years until each lot has fallen to a share (0.001 to 0.999) of its initial viability.

    The same as ``time_to`` with its mark of the initial viability, for all lots at once.
    """
    import numpy as np
    from scipy.special import ndtri

    kept = within(kept_share, say("The viability waited for"), Unit.SHARE, LEAST_SHARE, GREATEST_SHARE)
    times = 10 ** (normal_deviate(level) * LARGEST_K_E_ERROR)
    falls = np.log10(np.maximum(lots.moisture_percent, DRIEST_PERCENT))
    falls *= lots.c_w  # one array is written over and over: asking for memory costs more than the sums
    falls += (lots.c_h + lots.c_q * lots.temperature_c) * lots.temperature_c
    years = np.power(10.0, np.subtract(lots.k_e, falls, out=falls), out=falls)
    years *= ndtri(lots.initial_share) - ndtri(kept * lots.initial_share)
    years /= DAYS_A_YEAR
    return Lives(years, times)
