"""Tries are counted across processes, kindly refused, and nobody can lock out somebody else."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime, timedelta

import pytest
import time_machine

from hub.db import limits
from hub.db.base import Base
from hub.db.engine import make_engine
from hub.rights.right import Right
from hub.rights.scope import Scope
from hub.web.limits import limited, minutes, sender, sender_and

NOON = datetime(2026, 6, 1, 12, tzinfo=UTC)
OPEN = Right.PUBLIC_READ


@pytest.fixture
def sign_in(house, pages, app):
    Base.metadata.create_all(house.engine, tables=[limits.RateCount.__table__])

    @pages.route("/enter", needs=OPEN, methods=["GET", "POST"])
    @limited("enter", times=3, within=minutes(15), by=sender_and("email"))
    @limited("enter from one address", times=5, within=minutes(15), by=sender)
    def enter(work):
        return "in"

    app.register_blueprint(pages)

    def attempt(email, address="203.0.113.5", verb="POST"):
        data = {"email": email} if verb == "POST" else None
        return app.test_client().open("/enter", method=verb, data=data, environ_base={"REMOTE_ADDR": address})

    with time_machine.travel(NOON, tick=False) as clock:
        attempt.clock = clock
        yield attempt


def test_after_the_limit_it_says_how_long_to_wait(sign_in):
    assert [sign_in("ada@example.org").status_code for _ in range(4)] == [200, 200, 200, 429]
    refused = sign_in("ada@example.org")
    assert refused.headers["Retry-After"] == "900"
    assert "wait 15 minutes" in refused.text


def test_other_spellings_of_an_account_count_together(sign_in):
    for email in ("ada@example.org", " ADA@example.org", "Ada@Example.org "):
        sign_in(email)
    assert sign_in("ada@example.org").status_code == 429


def test_tries_from_elsewhere_do_not_lock_out_the_owner(sign_in):
    for _ in range(9):
        sign_in("ada@example.org", "198.51.100.9")
    assert sign_in("ada@example.org", "203.0.113.5").status_code == 200


def test_one_sender_cannot_try_many_accounts(sign_in):
    answers = [sign_in(f"{at}@example.org").status_code for at in range(6)]
    assert answers == [200] * 5 + [429]


def test_a_network_of_ipv6_is_one_sender(sign_in):
    answers = [sign_in(f"{at}@example.org", f"2001:db8::{at}").status_code for at in range(6)]
    assert answers[-1] == 429
    assert sign_in("x@example.org", "2001:db8:0:1::1").status_code == 200


def test_the_count_starts_anew_after_its_while(sign_in):
    for _ in range(4):
        sign_in("ada@example.org")
    sign_in.clock.move_to(NOON + timedelta(minutes=15))
    assert sign_in("ada@example.org").status_code == 200


def test_looking_is_free(sign_in):
    assert {sign_in("", verb="GET").status_code for _ in range(9)} == {200}


def test_tries_at_the_same_moment_are_all_counted(database_url):
    engine = make_engine(database_url)

    def once(_):
        return limits.count(engine, "key", now=NOON, within=minutes(1))[0]

    with ThreadPoolExecutor(8) as pool:
        assert sorted(pool.map(once, range(24))) == list(range(1, 25))
    engine.dispose()


def test_counts_that_are_over_are_forgotten(house):
    tables = [limits.RateCount.__table__, limits.TriesInARow.__table__]
    Base.metadata.create_all(house.engine, tables=tables)
    limits.count(house.engine, "old", now=NOON - minutes(9), within=minutes(5))
    limits.count(house.engine, "new", now=NOON, within=minutes(5))
    with house.work(Scope.everyone(because="upkeep"), now=NOON) as work:
        limits.forget_old(work)
        assert work.db.query(limits.RateCount.key).all() == [("new",)]
