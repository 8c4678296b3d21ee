"""Limits on how often: no guessing of passwords, no flood of exports, and nobody locked out by somebody else.

A page says it below its route, before it touches the store::

    @pages.route("/sign-in", needs=Right.PUBLIC_READ, methods=["POST"])
    @limited("sign-in", times=10, within=minutes(15), by=sender_and("email"))
    @limited("sign-in of all", times=100, within=minutes(15), by=sender)
    def sign_in(work): ...

Counting an account together with the sender means that tries from elsewhere never close it to its owner.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta
from functools import wraps
from ipaddress import ip_address, ip_network
from math import ceil
from typing import Any

from flask import Flask, request
from werkzeug.exceptions import TooManyRequests

from hub.db import limits
from hub.db.work import Work
from hub.web.caller import caller, house
from hub.web.guard import SAFE
from hub.words import say_n

By = Callable[[], str]
# One household or one attacker holds at least this much of the address space of IPv6.
IPV6_PREFIX = 64
TABLE_FILES = (".csv", ".xlsx")
DOWNLOADS, DOWNLOADS_WITHIN = 60, timedelta(minutes=10)


def minutes(number: int) -> timedelta:
    return timedelta(minutes=number)


def limited(
    name: str, *, times: int, within: timedelta, by: By, reads: bool = False
) -> Callable[[Callable[..., Any]], Callable[..., Any]]:
    """Refuse a page with 429 after ``times`` tries ``within`` a while. Looking is free unless ``reads``."""

    def declare(view: Callable[..., Any]) -> Callable[..., Any]:
        @wraps(view)
        def answer(work: Work, **args: Any) -> Any:
            if reads or request.method not in SAFE:
                allow(work, name, by(), times=times, within=within)
            return view(work, **args)

        return answer

    return declare


def allow(work: Work, name: str, who: str, *, times: int, within: timedelta) -> None:
    """Count one try, and raise TooManyRequests when it is one too many.

    Where the work writes, it must come before the first query: SQLite has one writer at a time, and
    counting is one.
    """
    reads_only = work.db.get_bind().get_execution_options().get("reads_only", False)
    if work.db.in_transaction() and not reads_only:
        raise RuntimeError(f"count {name!r} before the first query of the page")
    spend(name, who, now=work.now, times=times, within=within)


def spend(name: str, who: str, *, now: datetime, times: int, within: timedelta) -> None:
    """Count one try outside any work. Raises TooManyRequests."""
    key = limits.key_of(house().settings, name, who)
    tries, until = limits.count(house().engine, key, now=now, within=within)
    if tries > times:
        raise too_often(now, until)


def prepare(app: Flask) -> None:
    """Hold back whoever downloads list after list: every page with ``as=csv``, every table file."""

    @app.before_request
    def hold_downloads() -> None:
        if request.args.get("as") == "csv" or request.path.endswith(TABLE_FILES):
            spend("downloads", person(), now=house().now(), times=DOWNLOADS, within=DOWNLOADS_WITHIN)


def too_often(now: datetime, until: datetime) -> TooManyRequests:
    """429 with the wait in words and in Retry-After."""
    wait = until - now
    words = say_n(
        "This was tried too often in a short time. Please wait {n} minute, then try again.",
        "This was tried too often in a short time. Please wait {n} minutes, then try again.",
        n=max(1, ceil(wait / minutes(1))),
    )
    return TooManyRequests(words, retry_after=max(1, ceil(wait.total_seconds())))  # type: ignore[arg-type]


def sender() -> str:
    """The address that a request comes from; in IPv6 the network it belongs to."""
    try:
        address = ip_address(request.remote_addr or "")
    except ValueError:
        return "unknown"
    return str(address if address.version == 4 else ip_network((address, IPV6_PREFIX), strict=False))


def sender_and(box: str) -> By:
    """The sender together with what was typed in one box, such as the account's e-mail address."""
    return lambda: f"{sender()} {request.form.get(box, '').strip().casefold()}"


def person() -> str:
    """Whoever is signed in, else the sender."""
    person_id = caller().scope.person_id
    return str(person_id) if person_id else sender()
