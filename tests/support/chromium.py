"""A real browser for tests. It may talk to the hub alone, and whatever it complains about fails the test."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, ConsoleMessage, Page, Request, Route, sync_playwright

from tests.support.demo_hub import DemoHub

EXECUTABLE = "/usr/bin/chromium"
FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
PHONE = {"width": 360, "height": 740}
DESK = {"width": 1280, "height": 900}


@dataclass
class Window:
    """One person's browser window, which notes every complaint and every call to a strange host."""

    hub: DemoHub
    context: BrowserContext
    page: Page
    complaints: list[str] = field(default_factory=list)

    @classmethod
    def opened(cls, hub: DemoHub, browser: Browser, **options: Any) -> Window:
        context = browser.new_context(base_url=hub.url, locale="en-GB", **options)
        window = cls(hub, context, context.new_page())
        context.route("**/*", window.refuse_elsewhere)
        window.page.on("console", window.note)
        window.page.on("pageerror", lambda error: window.complaints.append(f"script: {error}"))
        return window

    def refuse_elsewhere(self, route: Route, request: Request) -> None:
        if request.url.startswith((f"{self.hub.url}/", "data:", "blob:")):
            route.continue_()
        else:
            self.complaints.append(f"asked for {request.url}")
            route.abort()

    def note(self, message: ConsoleMessage) -> None:
        """A refused form answers 422, which the browser tells; that is no fault."""
        if message.type in ("error", "warning") and "status of 422" not in message.text:
            self.complaints.append(f"{self.page.url}: {message.text}")

    def sign_in(self, role: str) -> Window:
        """Sign in as the demo's person of a role, as people do."""
        return self.sign_in_as(self.hub.email(role), self.hub.password)

    def sign_in_as(self, email: str, password: str) -> Window:
        self.page.goto("/sign-in")
        self.page.get_by_label("E-mail").fill(email)
        self.page.locator("main input[type=password]").fill(password)
        self.page.locator("main form button[type=submit]").first.click()
        self.page.wait_for_url(lambda url: "/sign-in" not in url)
        return self

    def press(self, name: str, role: Any = "button") -> None:
        """Press the button, or follow the link, that says this."""
        self.page.get_by_role(role, name=name).first.click()


Windows = Callable[..., Window]


@pytest.fixture(scope="module")
def chromium() -> Iterator[Browser]:
    """The browser of one module's tests: its event loop must not run while other tests need one."""
    if "chromium" in os.environ.get("HUB_TEST_WITHOUT", "").split(","):
        pytest.skip("Chromium is not installed here")
    with sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=EXECUTABLE, args=FLAGS)
        yield browser
        browser.close()


@pytest.fixture
def window(chromium: Browser, demo_hub: DemoHub) -> Iterator[Windows]:
    """``window(viewport=PHONE)`` opens a new person's window; at the end none may have complained."""
    opened: list[Window] = []

    def open_window(**options: Any) -> Window:
        opened.append(Window.opened(demo_hub, chromium, **{"viewport": DESK, **options}))
        return opened[-1]

    yield open_window
    complaints = [complaint for each in opened for complaint in each.complaints]
    for each in opened:
        each.context.close()
    assert not complaints, "\n".join(complaints)
