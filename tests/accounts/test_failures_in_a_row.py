"""Failures in a row on one account: growing waits, an end at one hundred, and a way back in for its owner."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime, timedelta
from itertools import count, pairwise

import pytest
import time_machine
from hypothesis import given
from hypothesis import strategies as st

from hub.accounts.actions import reset_link, use_reset
from hub.accounts.queries import get_person
from hub.accounts.rules import FREE_FAILURES, LONGEST_WAIT, MOST_FAILURES, wait_after
from hub.db.limits import try_once_more
from hub.db.work import House
from tests.cast import PASSWORD, Cast
from tests.support.browser import Browse
from tests.support.html import Page

NOON = datetime(2031, 7, 14, 12, tzinfo=UTC)
ALICE, NOBODY = "alice@cast.example", "nobody@cast.example"
SENDERS = (f"198.51.{at // 250}.{at % 250 + 1}" for at in count())


def try_from_elsewhere(browse: Browse, email: str, typed: str = "a wild guess") -> Page:
    """One try from an address that nobody used before."""
    window = browse()
    window.client.environ_base["REMOTE_ADDR"] = next(SENDERS)
    return window.fill("/sign-in", None, email=email, password=typed)


def fail(browse: Browse, email: str, times: int) -> list[int]:
    return [try_from_elsewhere(browse, email).status for _ in range(times)]


def test_waits_begin_after_a_while_and_grow() -> None:
    waits = [wait_after(failures) for failures in range(MOST_FAILURES)]
    assert waits[FREE_FAILURES - 1] == timedelta(0)
    assert waits[FREE_FAILURES] == timedelta(minutes=1)
    assert waits[-1] == LONGEST_WAIT
    assert all(earlier <= later for earlier, later in pairwise(waits))


@given(st.integers(0, 10**9))
def test_no_wait_is_for_good(failures: int) -> None:
    assert timedelta(0) <= wait_after(failures) <= LONGEST_WAIT


@pytest.mark.parametrize("email", [ALICE, NOBODY], ids=["an account", "no account"])
def test_strangers_wait_longer_and_longer_whoever_they_try(browse: Browse, cast: Cast, email: str) -> None:
    """The same for an address that has no account, so the answers tell nothing."""
    assert fail(browse, email, FREE_FAILURES) == [422] * FREE_FAILURES
    told = try_from_elsewhere(browse, email)
    assert told.status == 429
    assert 0 < int(told.answer.headers["Retry-After"]) <= 60
    with time_machine.travel(cast.now + timedelta(minutes=2)):
        assert fail(browse, email, 2) == [422, 429]


def test_a_browser_that_its_owner_used_before_does_not_wait(browse: Browse) -> None:
    own = browse()
    own.fill("/sign-in", email=ALICE, password=PASSWORD)
    own.press("/account", "/sign-out")
    fail(browse, ALICE, FREE_FAILURES + 1)
    own.fill("/sign-in", email=ALICE, password=PASSWORD)
    own.get("/account")


def test_a_browser_is_known_to_one_account_alone(browse: Browse) -> None:
    own = browse()
    own.fill("/sign-in", email="bob@cast.example", password=PASSWORD)
    own.press("/account", "/sign-out")
    fail(browse, ALICE, FREE_FAILURES)
    own.fill("/sign-in", 429, email=ALICE, password=PASSWORD)


def test_success_begins_the_count_anew(browse: Browse) -> None:
    fail(browse, ALICE, FREE_FAILURES - 1)
    assert try_from_elsewhere(browse, ALICE, PASSWORD).status == 303
    assert fail(browse, ALICE, FREE_FAILURES) == [422] * FREE_FAILURES


@pytest.mark.parametrize("email", [ALICE, NOBODY], ids=["an account", "no account"])
def test_after_a_hundred_failures_the_password_opens_nothing(browse: Browse, cast: Cast, email: str) -> None:
    """NIST SP 800-63B-4 §3.2.2: no more than 100 consecutive failed attempts on a single account."""
    for at in range(MOST_FAILURES):
        with time_machine.travel(cast.now + timedelta(hours=2 * at)):
            assert fail(browse, email, 1) == [422]
    with time_machine.travel(cast.now + timedelta(days=90)):
        page = try_from_elsewhere(browse, email, PASSWORD)
        assert page.status == 422
        assert "opens the hub no more" in page.problems[0]


def test_a_new_password_by_mail_is_the_way_back_in(browse: Browse, cast: Cast) -> None:
    for at in range(MOST_FAILURES + 1):
        with time_machine.travel(cast.now + timedelta(hours=2 * at)):
            try_from_elsewhere(browse, ALICE)
    later, new = cast.now + timedelta(days=90), "granite kestrels over a quiet tarn"
    with cast.everywhere(now=later) as work:
        link = reset_link(work, get_person(work, cast.people["alice"].id))
        use_reset(work, token=link.rpartition("/")[2], new=new)
    with time_machine.travel(later):
        assert try_from_elsewhere(browse, ALICE, new).status == 303


def test_a_thousand_tries_at_one_moment_are_counted_one_by_one(house: House) -> None:
    def once(_: int) -> bool:
        _, opens = try_once_more(
            house.engine, "key", now=NOON, opens_at=lambda failures, last: last + wait_after(failures)
        )
        return opens <= NOON

    with ThreadPoolExecutor(8) as pool:
        assert sum(pool.map(once, range(60))) == FREE_FAILURES
