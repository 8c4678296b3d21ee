"""No form, question or address breaks the hub: it refuses, keeps what was typed, and changes nothing.

The forms are those that people find on the pages of a played season. Each is sent many times with some of its
boxes spoilt. Commits are taken back, so that every form is tried on the same season; what a refusal would
have committed is noted, and at the end nothing may have changed.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import timedelta
from functools import partial
from io import BytesIO
from itertools import product
from typing import Any
from urllib.parse import quote
from uuid import uuid4

import pytest
import time_machine
from flask import Flask
from hypothesis import HealthCheck, Phase, Verbosity, given, settings
from hypothesis import strategies as st
from werkzeug.test import TestResponse

from hub.db import limits
from hub.db.tenancy import ScopedSession
from tests.cast import Cast
from tests.house_rules.belongings import Belongings, gather_belongings
from tests.house_rules.forms_found import FoundForm, Walk, endpoint_of, filled_in, forms_of, walked
from tests.support.html import BOXES, value_of

LONG = "Silene " * 2000
TROUBLESOME = (
    "\x00", "a\x00b", "\x1b[2J", "\u202eabc", "\ufeff", "🌱" * 40, "é" * 300, LONG, "9" * 400, "-1", "0",
    "1e309", "NaN", "-Infinity", "0x10", "1,234", "1.5", "+" * 9, "2147483648", "-99999999999999999999",
    "0000-00-00", "0000-01-01", "0001-01-01", "9999-12-31", "2031-02-30", "12031-01-01", "25:61", "24:00",
    str(uuid4()), "00000000-0000-0000-0000-000000000000", "not-a-key", "'; DROP TABLE person; --", "%s%n",
    "{{ 7 * 7 }}", "<script>alert(1)</script>", '"><img src=x onerror=alert(1)>', "../../etc/passwd",
    "=1+1", "a@b", "a@b.example\nBcc: c@d.example", '{"type":"Polygon","coordinates":[]}',
    '{"type":"Polygon","coordinates":[[[0,0],[1,1],[0,1],[1,0],[0,0]]]}', "[" * 3000, "on", "yes", "None",
)  # fmt: skip
ANY_TEXT = st.text(st.characters(exclude_categories=["Cs"]), max_size=60)
HOSTILE = st.sampled_from(TROUBLESOME) | ANY_TEXT
FILES = (
    b"", b"\x00" * 200, b"GIF89a\x01", b"\xff\xd8\xff\xe0broken", b"%PDF-1.7\nbroken", b"PK\x03\x04broken",
    b"name,kind\n\xff\xfe\n", b"scientific_name,populations\nSilene acaulis,2\n", b"<svg onload='x()'/>",
)  # fmt: skip
FILE = st.tuples(st.sampled_from(FILES), st.sampled_from(["a.jpg", "a.pdf", "a.csv", "a.xlsx", "..\\a", "é"]))
STRANGE_NAMES = st.sampled_from(
    ["x" * 5000, "tallies-999999-flag", "tallies--1-flag", "needs-0000000-populations", "_schema", "a\x00b",
     "finding_ids", "id", "csrf_token ", "standings-5-5-5-kind", "é", "next"]
)  # fmt: skip
STRANGE_PARTS = ("0", "%00", "..", quote("🌱"), quote("é" * 200), "a" * 3000, "%ff", str(uuid4()))
Spoilt = dict[str, list[Any]]


@dataclass
class House:
    """The played season, everybody's way through it, and what a refusal tried to commit."""

    app: Flask
    belongings: Belongings
    walks: list[Walk]
    commits: list[str] = field(default_factory=list)
    faults: list[str] = field(default_factory=list)
    statuses: Counter[int] = field(default_factory=Counter)

    def walk(self, seat: str | None) -> Walk:
        return next(walk for walk in self.walks if walk.seat == seat)

    def forms(self, method: str) -> dict[str, list[FoundForm]]:
        """The forms by the endpoint they go to, one for each set of boxes."""
        found: dict[tuple[str, tuple[str, ...]], FoundForm] = {}
        for form in (form for walk in self.walks for form in walk.forms if form.method == method):
            endpoint = endpoint_of(self.app, form.action.split("?")[0], method.upper())
            plain = tuple(name for name in form.names if not any(sign.isdigit() for sign in name))
            found.setdefault((endpoint, plain), form)
        by_endpoint: dict[str, list[FoundForm]] = {}
        for (endpoint, _), form in found.items():
            by_endpoint.setdefault(endpoint, []).append(form)
        return by_endpoint


@pytest.fixture
def played(app: Flask, cast: Cast, monkeypatch: pytest.MonkeyPatch) -> Iterator[House]:
    with time_machine.travel(cast.now, tick=True):
        belongings = gather_belongings(cast)
        house = House(app, belongings, walked(app, belongings))
        monkeypatch.setattr(limits, "count", lambda engine, key, now, within: (1, now + timedelta(days=1)))
        with commits_taken_back(house.commits, monkeypatch):
            yield house


@contextmanager
def commits_taken_back(noted: list[str], monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """Let every commit do all but the last step, so that the next form finds the same season."""

    def almost(session: ScopedSession) -> None:
        session.flush()
        noted.append("commit")
        session.rollback()

    with monkeypatch.context() as patch:
        patch.setattr(ScopedSession, "commit", almost)
        yield


@st.composite
def spoilt(draw: st.DrawFn, form: FoundForm) -> Spoilt:
    """What a form sends with some of its boxes spoilt: hostile, repeated, left out, a file for a text."""
    sent: Spoilt = {name: [value] for name, value in form.values}
    names = form.names
    for name in draw(st.lists(st.sampled_from(names), min_size=1, max_size=6)) if names else ():
        if name == "csrf_token":
            continue
        what = draw(st.sampled_from(["text", "text", "text", "twice", "missing", "file"]))
        if what == "missing":
            sent.pop(name, None)
        elif what == "file" or (name in form.files and draw(st.booleans())):
            sent[name] = [draw(FILE)]
        else:
            sent[name] = [draw(HOSTILE) for _ in range(2 if what == "twice" else 1)]
    if draw(st.integers(0, 9)) == 0:
        sent[draw(STRANGE_NAMES)] = [draw(HOSTILE)]
    return sent


def body_of(sent: Spoilt) -> dict[str, Any]:
    """The same as the test client takes it."""
    return {
        name: [(BytesIO(value[0]), value[1]) if isinstance(value, tuple) else value for value in values]
        for name, values in sent.items()
    }


def each_of(strategy: st.SearchStrategy[Any], times: int, act: Callable[[Any], None]) -> None:
    """Call ``act`` with so many examples; the same ones every time."""

    @settings(
        max_examples=times, derandomize=True, database=None, deadline=None, phases=[Phase.generate],
        verbosity=Verbosity.quiet, suppress_health_check=list(HealthCheck),
    )  # fmt: skip
    @given(strategy)
    def go(example: Any) -> None:
        act(example)

    go()


def answered(house: House, what: str, ask: Callable[[], TestResponse]) -> TestResponse | None:
    """The answer, or None with the fault noted: an exception is what a reader would see as a 5xx."""
    house.commits.clear()
    try:
        answer = ask()
    except Exception as fault:  # whatever it is, it is what this test looks for
        house.faults.append(f"{what}: {type(fault).__name__}: {str(fault)[:300]}")
        return None
    house.statuses[answer.status_code] += 1
    if answer.status_code >= 500:
        house.faults.append(f"{what}: {answer.status}")
    if answer.status_code >= 400 and house.commits:
        house.faults.append(f"{what}: {answer.status}, and yet something was changed")
    return answer


def short(sent: Spoilt, form: FoundForm) -> str:
    """What was spoilt, for the report."""
    usual = dict(form.values)
    odd = {name: values for name, values in sent.items() if values != [usual.get(name)]}
    return repr({name: [repr(value)[:60] for value in values] for name, values in odd.items()})


def not_kept(answer: TestResponse, sent: Spoilt, form: FoundForm) -> list[str]:
    """Boxes that a refused form gives back without what was typed into them."""
    shown: dict[str, list[str]] = {}
    for each in forms_of(answer.get_data(as_text=True)):
        for box in each.iter():
            if box.tag in BOXES and box.get("name"):
                shown.setdefault(box.get("name", ""), []).append(value_of(box))
    typed = {name: sent[name][0] for name in form.written & sent.keys()}
    return [
        name
        for name, text in typed.items()
        if isinstance(text, str) and text.isprintable() and text.strip() and text not in shown.get(name, [])
    ]


def doses(house: House) -> tuple[int, int]:
    """How often each form is sent and each page asked: less where the store is slower to ask."""
    return (10, 3) if house.belongings.cast.house.engine.dialect.name == "sqlite" else (2, 1)


def test_nothing_that_anybody_sends_breaks_the_hub(played: House) -> None:
    """All on one played season: it takes far longer to play and to walk through than to try."""
    before = played.belongings.fingerprint()
    times, questions = doses(played)
    for endpoint, forms in sorted(played.forms("post").items()):
        for form in forms:
            send_spoilt(played, form, endpoint, times)
    for form in formless(played):
        send_spoilt(played, form, form.page, times)
    for walk in played.walks:
        ask_pages(played, walk, questions)
    try_addresses(played)
    assert not played.faults, f"{len(played.faults)} faults:\n" + "\n".join(played.faults)
    assert min(played.statuses[each] for each in (200, 303, 404, 422)) > 20, "it hardly tried anything"
    assert played.belongings.fingerprint() == before


def send_spoilt(house: House, form: FoundForm, endpoint: str, times: int) -> None:
    """One form, so many times, each time with other boxes spoilt."""
    client = house.walk(form.seat).client

    def send(sent: Spoilt) -> None:
        what = f"{form.seat} sends {short(sent, form)} to {endpoint} ({form.page})"
        body = body_of(sent)
        go = partial(client.post, form.action, data=body, content_type="multipart/form-data")
        answer = answered(house, what, go)
        lost = not_kept(answer, sent, form) if answer is not None and answer.status_code == 422 else []
        if lost:
            house.faults.append(f"{what}: forgets {lost}")

    each_of(spoilt(form), times, send)


def formless(house: House) -> Iterator[FoundForm]:
    """For routes whose form no page of this season shows: every name of a box there is, by two seats."""
    shown = house.forms("post")
    names = {name for forms in shown.values() for form in forms for name in form.names}
    for rule in house.app.url_map.iter_rules():
        changes = "POST" in (rule.methods or ()) and not rule.rule.startswith("/api/")
        if changes and rule.endpoint not in shown:
            for seat, address in product(("alice", "cora"), filled_in(house.app, rule, house.belongings.ids)):
                values = tuple(
                    {**dict.fromkeys(sorted(names), ""), "csrf_token": token_of(house, seat)}.items()
                )
                yield FoundForm(seat, rule.endpoint, address, "post", values, frozenset(), frozenset())


def token_of(house: House, seat: str) -> str:
    """The token that stands in every form of a seat's session."""
    return next(dict(form.values)["csrf_token"] for form in house.walk(seat).forms if form.method == "post")


def ask_pages(house: House, walk: Walk, times: int) -> None:
    """Every page that this seat found, asked with hostile filters, orders and cursors."""
    shown = house.forms("get")
    for endpoint, addresses in sorted(walk.addresses.items()):
        boxes = {name for form in shown.get(endpoint, ()) for name in form.names}
        names = sorted(boxes | {"at", "sort", "as", "next", "search", "year", "version"})
        path = min(addresses).split("?")[0]

        def ask(query: dict[str, str], path: str = path) -> None:
            what = f"{walk.seat} asks {path} with { {name: text[:60] for name, text in query.items()} }"
            answered(house, what, partial(walk.client.get, path, query_string=query))

        each_of(st.dictionaries(st.sampled_from(names), HOSTILE, min_size=1, max_size=4), times, ask)


def try_addresses(house: House) -> None:
    """Every part of every address filled with what does not belong there."""
    for rule in house.app.url_map.iter_rules():
        for part in STRANGE_PARTS if rule.arguments and not rule.rule.startswith("/api/") else ():
            address = re.sub(r"<[^>]+>", part, rule.rule)
            for seat, method in product(("alice", "cora"), (rule.methods or set()) & {"GET", "POST"}):
                go = partial(house.walk(seat).client.open, address, method=method)
                answered(house, f"{seat}: {method} {address[:120]}", go)
