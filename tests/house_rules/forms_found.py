"""Every form of the hub, found as people find it: by going from page to page in each kind of seat."""

from __future__ import annotations

import re
from collections import Counter, deque
from collections.abc import Iterator
from dataclasses import dataclass, field
from html import unescape
from itertools import product
from urllib.parse import parse_qsl, urlsplit
from uuid import UUID, uuid4
from xml.etree.ElementTree import Element

import html5lib
from flask import Flask
from flask.testing import FlaskClient
from werkzeug.exceptions import HTTPException
from werkzeug.routing import Rule

from tests.house_rules.belongings import Belongings
from tests.support.browser import Browser
from tests.support.html import BOXES, untouched

SEATS = ("alice", "bob", "cora", "tess", "olga", "stan", None)
ALIKE = 2  # pages of one route and one set of questions; more would show the same forms again
LEFT_ALONE = ("/api/", "/static/", "/health")
PAPERS = (".pdf", ".csv", ".xlsx", "as=csv")  # no forms in them, and slow to make
FORM = re.compile(r"<form\b.*?</form>", re.DOTALL)
LINK = re.compile(r'<a\b[^>]*\bhref="([^"#]+)')


@dataclass(frozen=True)
class FoundForm:
    """A form on somebody's page: where it goes, what it would send untouched, and which boxes take a file."""

    seat: str | None
    page: str
    action: str
    method: str
    values: tuple[tuple[str, str], ...]
    files: frozenset[str]
    written: frozenset[str]  # boxes whose text the page can show again

    @property
    def names(self) -> list[str]:
        return sorted({name for name, _ in self.values} | self.files)


@dataclass
class Walk:
    """One seat's way through the hub."""

    app: Flask
    seat: str | None
    client: FlaskClient
    forms: list[FoundForm] = field(default_factory=list)
    addresses: dict[str, set[str]] = field(default_factory=dict)  # by endpoint
    _seen: Counter[tuple[str, tuple[str, ...]]] = field(default_factory=Counter)

    def go(self, starts: list[str]) -> None:
        """Look at every start and at whatever it leads to."""
        waiting, known = deque(starts), set(starts)
        while waiting:
            for link in self.look(waiting.popleft()):
                if link not in known and is_page(link):
                    known.add(link)
                    waiting.append(link)

    def look(self, address: str) -> Iterator[str]:
        """Note the forms of one page; give its links."""
        split = urlsplit(address)
        endpoint = endpoint_of(self.app, split.path, "GET")
        shape = (endpoint, tuple(sorted(name for name, _ in parse_qsl(split.query))))
        if not endpoint or self._seen[shape] >= ALIKE:
            return
        answer = self.client.get(address)
        if answer.status_code in (301, 302, 303):
            yield answer.headers["Location"].split("#")[0]
        if answer.status_code != 200 or answer.mimetype != "text/html":
            return
        self._seen[shape] += 1
        self.addresses.setdefault(endpoint, set()).add(address)
        html = answer.get_data(as_text=True)
        self.forms += [form_in(each, self.seat, address) for each in forms_of(html)]
        yield from map(unescape, LINK.findall(html))


def is_page(link: str) -> bool:
    """An address of ours that a page with forms may stand behind."""
    return link.startswith("/") and not link.startswith(LEFT_ALONE) and not link.endswith(PAPERS)


def forms_of(html: str) -> Iterator[Element]:
    """The forms of a page, each read by itself: most of a page is no form, and reading it takes long."""
    for piece in FORM.findall(html):
        yield from html5lib.parse(piece, namespaceHTMLElements=False).iter("form")


def form_in(form: Element, seat: str | None, page: str) -> FoundForm:
    boxes = [box for box in form.iter() if box.tag in BOXES and box.get("name")]
    values = dict.fromkeys((box.get("name", "") for box in boxes if box.get("type") != "file"), "")
    untouched_values = {k: v[0] if isinstance(v, list) else v for k, v in untouched(form)}
    return FoundForm(
        seat,
        page,
        form.get("action") or urlsplit(page).path,
        form.get("method", "get").lower(),
        tuple({**values, **untouched_values}.items()),
        frozenset(box.get("name", "") for box in boxes if box.get("type") == "file"),
        frozenset(box.get("name", "") for box in boxes if is_written(box)),
    )


def is_written(box: Element) -> bool:
    """Whether what is typed into this box is to stand in it again when the form comes back."""
    unseen = ("hidden", "password", "file", "checkbox", "radio", "submit", "button")
    return box.tag == "textarea" or (box.tag == "input" and box.get("type") not in unseen)


def endpoint_of(app: Flask, path: str, method: str) -> str:
    try:
        endpoint, _ = app.url_map.bind("localhost").match(path, method=method)
    except HTTPException:
        return ""
    return str(endpoint)


def starts(app: Flask, ids: dict[str, UUID]) -> list[str]:
    """The addresses of every page, with keys of the belongings put in and every choice of words."""
    return [
        path
        for rule in app.url_map.iter_rules()
        if "GET" in (rule.methods or ()) and is_page(rule.rule)
        for path in filled_in(app, rule, ids)
    ]


def filled_in(app: Flask, rule: Rule, ids: dict[str, UUID]) -> Iterator[str]:
    """The addresses of a rule: one for each choice of words in it."""
    options = [
        [ids.get(name, uuid4())] if name.endswith("_id") else sorted(getattr(converter, "items", ("plain",)))
        for name, converter in rule._converters.items()
    ]
    with app.test_request_context():
        for chosen in product(*options):
            values = dict(zip(rule._converters, chosen, strict=True))
            yield str(rule.build(values, append_unknown=False)[1])  # type: ignore[index]


def walked(app: Flask, belongings: Belongings) -> list[Walk]:
    """All that each seat finds."""
    walks = []
    for seat in SEATS:
        walk = Walk(app, seat, Browser(app, belongings.cast, seat).client)
        walk.go(starts(app, belongings.ids))
        walks.append(walk)
    return walks
