"""Finds every page that somebody can reach by links, one page for each route."""

from __future__ import annotations

from collections import Counter, deque
from collections.abc import Iterator
from urllib.parse import urldefrag, urlsplit

from playwright.sync_api import Page
from werkzeug.exceptions import HTTPException

from tests.support.chromium import Window
from tests.support.demo_hub import DemoHub

INSTANCES = 1  # of one route: the others show the same template with other words
MOST_PAGES = 150
FILES = (".pdf", ".csv", ".xlsx", ".json", ".svg", ".txt")
LINKS = "[...document.querySelectorAll('a[href]')].map((link) => link.href)"


def pages_of(window: Window, *, instances: int = INSTANCES) -> Iterator[str]:
    """Open page after page, beginning at the front door; each stands open in the window when it is given."""
    waiting, met, seen = deque([f"{window.hub.url}/"]), set(), Counter[str]()
    while waiting:
        address = waiting.popleft()
        route = route_of(window.hub, address)
        if route is None or seen[route] >= instances or seen.total() >= MOST_PAGES:
            continue
        seen[route] += 1
        answer = window.page.goto(address)
        assert answer is not None
        assert answer.status == 200, f"{address} answered {answer.status}"
        if "text/html" not in (answer.header_value("content-type") or ""):
            continue
        yield address
        new = [link for link in links_on(window.page) if link not in met]
        met.update(new)
        waiting.extend(new)


def links_on(page: Page) -> list[str]:
    """Where the page leads, in its order, without the places inside of pages."""
    return list(dict.fromkeys(urldefrag(link).url for link in page.evaluate(LINKS)))


def route_of(hub: DemoHub, address: str) -> str | None:
    """The route of a page of this hub; nothing for files, photographs and other hosts."""
    parts = urlsplit(address)
    if f"{parts.scheme}://{parts.netloc}" != hub.url or parts.path.endswith(FILES) or "csv" in parts.query:
        return None
    try:
        endpoint, _ = hub.app.url_map.bind(parts.netloc).match(parts.path, "GET")
    except HTTPException:
        return parts.path  # a link that leads nowhere is opened, and fails
    return str(endpoint)
