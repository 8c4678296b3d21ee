"""When to test again: a third of what is expected, or custom, and a day on the calendar."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hub.science.longevity.next_test import Keeping, keeping_in_ageing, next_test_on, years_to_next_test
from hub.science.longevity.sources import PROBIT_FIT
from hub.science.quantity import Estimate, OutOfRange, Unit
from hub.words import Refused


def about(value, unit=Unit.YEARS):
    return Estimate(value, unit, value / 3, value * 3, 0.95, PROBIT_FIT)


@given(st.floats(0, 1e6))
def test_the_wait_is_a_third_and_never_beyond_forty_years(years):
    wait = years_to_next_test(about(years), Keeping.POORLY)
    assert wait.value == min(years / 3, 40)
    assert wait.low <= wait.value <= wait.high <= 40


@pytest.mark.parametrize(("keeping", "years"), [(Keeping.WELL, 10), (Keeping.POORLY, 5)])
def test_without_an_expectation_custom_decides(keeping, years):
    assert years_to_next_test(None, keeping).value == years


def test_an_expectation_in_days_is_a_mistake_of_the_caller():
    with pytest.raises(ValueError, match="in years"):
        years_to_next_test(about(3, Unit.DAYS), Keeping.WELL)


def test_the_day_is_counted_on_from_the_last_test():
    assert next_test_on(date(2031, 3, 1), years_to_next_test(None, Keeping.WELL)) == date(2041, 2, 28)


def test_a_day_beyond_the_calendar_is_refused():
    with pytest.raises(Refused, match="calendar"):
        next_test_on(date(9999, 1, 1), years_to_next_test(None, Keeping.WELL))
    with pytest.raises(OutOfRange):
        next_test_on(date(2031, 3, 1), about(41))


@pytest.mark.parametrize(("days", "keeping"), [(50, Keeping.WELL), (30, Keeping.POORLY), (3, Keeping.POORLY)])
def test_doubt_about_an_ageing_test_counts_as_keeping_poorly(days, keeping):
    assert keeping_in_ageing(about(days, Unit.DAYS))[0] is keeping


def test_an_ageing_test_takes_no_less_than_no_time():
    with pytest.raises(OutOfRange):
        keeping_in_ageing(Estimate(1, Unit.DAYS, -1, 2, 0.95, PROBIT_FIT))
