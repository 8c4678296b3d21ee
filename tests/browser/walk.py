"""Finds every kind of page that somebody can reach by links, and of each kind the fullest page.

The way is found without a browser, so that many pages can be met before a few are looked at with one.
"""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass, field
from html import unescape
from urllib.parse import urldefrag, urljoin, urlsplit

from flask import Flask
from flask.testing import FlaskClient
from werkzeug.exceptions import HTTPException

from tests.support.chromium import Window

ENOUGH = 8  # of one kind: what another page of it shows is other words
NOWHERE = (0, "")  # as full as a page of a kind that was not met
FILES = (".pdf", ".csv", ".xlsx", ".json", ".svg", ".txt")
LINK = re.compile(r'<a\b[^>]*?\bhref="([^"]+)"')


@dataclass
class Walk:
    """A walk of one person through the hub, from the front door to every kind of page behind it."""

    app: Flask
    client: FlaskClient
    base: str
    waiting: dict[str, str] = field(default_factory=dict)  # address to its kind
    met: set[str] = field(default_factory=set)
    count: Counter[str] = field(default_factory=Counter)
    fullest: dict[str, tuple[int, str]] = field(default_factory=dict)  # kind to length and address

    def go(self) -> None:
        """Open what was met least often first, until enough of every kind was met."""
        self.note("/", f"{self.base}/")
        while self.waiting:
            address = min(self.waiting, key=lambda each: self.count[self.waiting[each]])
            kind = self.waiting.pop(address)
            if self.count[kind] >= ENOUGH:
                break
            self.count[kind] += 1
            self.open(kind, address)

    def open(self, kind: str, address: str) -> None:
        answer = self.client.get(address, base_url=self.base)
        if answer.location:
            self.note(address, answer.location)
            return
        assert answer.status_code == 200, f"{address} answered {answer.status}"
        if answer.mimetype != "text/html":
            return
        self.fullest[kind] = max(self.fullest.get(kind, NOWHERE), (len(answer.data), address))
        for link in LINK.findall(answer.text):
            self.note(address, unescape(link))

    def note(self, here: str, link: str) -> None:
        """Remember where a link leads, without the places inside of pages."""
        address = urldefrag(urljoin(f"{self.base}{urlsplit(here).path}", link)).url
        kind = self.kind_of(address)
        if kind and address not in self.met:
            self.met.add(address)
            self.waiting[address] = kind

    def kind_of(self, address: str) -> str | None:
        """The route of a page of this hub; nothing for files, photographs and other hosts."""
        parts = urlsplit(address)
        if not address.startswith(f"{self.base}/") or parts.path.endswith(FILES) or "csv" in parts.query:
            return None
        try:
            endpoint, _ = self.app.url_map.bind(parts.netloc).match(parts.path, "GET")
        except HTTPException:
            return parts.path  # a link that leads nowhere is opened, and fails
        return str(endpoint)


def walked(window: Window) -> Walk:
    """The walk of whoever is signed in in this window, or of a visitor."""
    client = window.hub.app.test_client()
    for cookie in window.context.cookies():
        client.set_cookie(cookie["name"], cookie["value"], domain=cookie["domain"])
    walk = Walk(window.hub.app, client, window.hub.url)
    walk.go()
    return walk


def kinds_to_look_at(app: Flask) -> set[str]:
    """The routes of all pages: whatever somebody can open that is no file and speaks to no program."""
    return {
        rule.endpoint
        for rule in app.url_map.iter_rules()
        if "GET" in (rule.methods or ())
        and not rule.endpoint.startswith(("api", "assets", "static"))
        and not rule.rule.endswith(FILES)
    }
