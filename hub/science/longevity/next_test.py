"""When a lot should be tested again."""

from __future__ import annotations

from datetime import date, timedelta
from enum import StrEnum

from hub.science.longevity.equation import DAYS_A_YEAR
from hub.science.longevity.sources import AGEING, CUSTOMARY_TEST, FIRST_TEST_RULE, NEXT_TEST
from hub.science.quantity import Estimate, Source, Unit, within
from hub.words import Refused, say

PART_OF_TIME = 3
"""The next test comes after this part of the time to 85 % of the first result (from memory)."""

LONGEST_YEARS = 40.0
FIRST_TEST = Estimate.exact(1.0, Unit.YEARS, FIRST_TEST_RULE)
"""The longest wait from receipt to the first test."""

SHORT_LIVED_DAYS = 13.7
"""Half dead so soon at 45 °C and 60 % relative humidity, seed counts as short-lived (published)."""


class Keeping(StrEnum):
    """How well seed keeps, as far as that is known without constants."""

    WELL = "well"
    POORLY = "poorly"


YEARS_BY_KEEPING = {Keeping.WELL: 10.0, Keeping.POORLY: 5.0}
"""Published: IBPGR."""


def years_to_next_test(expected: Estimate | None, keeping: Keeping) -> Estimate:
    """Years to wait: a third of the time to 85 % of the initial viability, 40 at most.

    ``expected`` is that time in years, from the equation or the lot’s own tests; without it custom
    decides, by how well such seed keeps.
    """
    if expected is None:
        return Estimate.exact(YEARS_BY_KEEPING[keeping], Unit.YEARS, CUSTOMARY_TEST)
    if expected.unit is not Unit.YEARS:
        raise ValueError("the time to 85 % of the initial viability must be in years")
    value, low, high = (
        min(years / PART_OF_TIME, LONGEST_YEARS) for years in (expected.value, expected.low, expected.high)
    )
    return Estimate(value, Unit.YEARS, low, high, expected.level, NEXT_TEST, expected.warnings)


def next_test_on(last_test: date, wait: Estimate) -> date:
    """The day of the next test, rounded down."""
    years = within(wait.value, say("The years to the next test"), Unit.YEARS, 0, LONGEST_YEARS)
    try:
        return last_test + timedelta(days=int(years * DAYS_A_YEAR))
    except OverflowError:
        raise Refused(say("That day lies beyond the calendar.")) from None


def keeping_in_ageing(half_life_days: Estimate) -> tuple[Keeping, Source]:
    """How well seed keeps by its half-life in days at 45 °C and 60 % relative humidity.

    Where its interval reaches below the limit, the careful side is taken.
    """
    within(half_life_days.low, say("The half-life in the ageing test"), Unit.DAYS, 0, 100_000)
    return (Keeping.POORLY if half_life_days.low < SHORT_LIVED_DAYS else Keeping.WELL), AGEING
