"""How much of a weight of seed is pure and alive, and how much to weigh out for a wanted amount of that."""

from __future__ import annotations

from hub.science.germination.sources import PURE_LIVE_SEED
from hub.science.proportions import Trial, wilson_share
from hub.science.quantity import MOST, Estimate, Unit, within
from hub.words import Refused, say


def pure_live_seed(
    purity: float, germinated: Trial, *, dormant_confirmed: int = 0, level: float = 0.95
) -> Estimate:
    """Pure live share of a lot (0 to 1): purity by weight x the share that came up or lives dormant.

    ``dormant_confirmed`` counts seeds of the same test that did not come up, but that a cut or
    tetrazolium test showed alive. The interval is that of the living share alone.
    """
    pure = within(purity, say("The purity"), Unit.SHARE, 0, 1)
    good, tested = germinated
    within(dormant_confirmed, say("The dormant seeds found alive"), Unit.SEEDS, 0, max(tested - good, 0))
    living = wilson_share(Trial(good + dormant_confirmed, tested), level=level)
    ends = (pure * living.low, pure * living.high)
    return Estimate(pure * living.value, Unit.SHARE, *ends, level, PURE_LIVE_SEED)


def bulk_to_weigh(wanted_g: float, pure_live: Estimate) -> Estimate:
    """Grams of the lot that hold ``wanted_g`` grams of pure live seed; refused where nothing lives."""
    wanted = within(wanted_g, say("The pure live seed wanted"), Unit.GRAMS, 0, MOST)
    if pure_live.low <= 0:
        raise Refused(say("Nothing in this lot is known to live, so no weight of it is enough."))
    value, low, high = (wanted / share for share in (pure_live.value, pure_live.high, pure_live.low))
    return Estimate(value, Unit.GRAMS, low, high, pure_live.level, PURE_LIVE_SEED, pure_live.warnings)
