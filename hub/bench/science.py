"""Seed science over a whole hub's worth of input, beside the same sum in bare numpy."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from hub.bench.figure import Figure, ratio
from hub.science.longevity.constants import CONSTANTS
from hub.science.longevity.equation import DAYS_A_YEAR
from hub.science.longevity.many import Lots, years_to_share_of_initial
from hub.science.longevity.store import DRIEST_PERCENT, WETTEST_PERCENT

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

LOTS = 100_000
SHARE_OF_INITIAL = 0.85
SEED = 4


def science(*, rounds: int) -> Iterator[Figure]:
    """Each bar is the one that the function promises."""
    lots = invented_lots()
    yield ratio(
        "Life of 100,000 lots",
        "in one call, against the bare numpy expression",
        bar=1.5,
        rounds=rounds,
        hub=lambda: years_to_share_of_initial(Lots(**vars(lots)), SHARE_OF_INITIAL),
        numpy=lambda: bare_years(lots),
    )


def invented_lots() -> Lots:
    """Lots of species whose constants are known, in stores that the equation allows."""
    import numpy as np

    chance = np.random.default_rng(SEED)
    known = np.array([(each.k_e, each.c_w, each.c_h, each.c_q) for each in CONSTANTS.values()])
    k_e, c_w, c_h, c_q = known[chance.integers(0, len(known), LOTS)].T
    return Lots(
        k_e=k_e,
        c_w=c_w,
        c_h=c_h,
        c_q=c_q,
        moisture_percent=chance.uniform(DRIEST_PERCENT, WETTEST_PERCENT, LOTS),
        temperature_c=chance.uniform(-20, 40, LOTS),
        initial_share=chance.uniform(0.3, 0.99, LOTS),
    )


def bare_years(lots: Lots) -> NDArray[np.float64]:
    """The same answer without limits, interval or names."""
    import numpy as np
    from scipy.special import ndtri

    held = lots.c_h * lots.temperature_c + lots.c_q * lots.temperature_c**2
    sigma = 10 ** (lots.k_e - lots.c_w * np.log10(lots.moisture_percent) - held)
    years: NDArray[np.float64] = (
        sigma * (ndtri(lots.initial_share) - ndtri(SHARE_OF_INITIAL * lots.initial_share)) / DAYS_A_YEAR
    )
    return years
