"""Every page that a role can reach passes axe, narrow and wide, light and dark, and fits a narrow screen.

Axe-core 4.12 with its rules for WCAG 2.0 to 2.2, levels A and AA, and its best practices. 320 CSS pixels
is the width of WCAG 2.2, success criterion 1.4.10 (reflow).
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

from tests.browser.walk import NOWHERE, Walk, kinds_to_look_at, walked
from tests.support.chromium import Window, Windows
from tests.support.demo_hub import DemoHub

TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
# The structure of a page is the same by day and by night: only what looks at colours is asked twice.
COLOURS = ["color-contrast", "link-in-text-block"]
NARROW, WIDE = {"width": 320, "height": 640}, {"width": 1280, "height": 900}
ROLES = [None, "group lead", "school teacher", "member", "curator", "technician", "coordinator", "steward"]
OVERFLOW = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
STICKING_OUT = """() => [...document.querySelectorAll("main table, main svg, main form, main pre")].filter(
  (part) => !part.closest(".scroll") && part.checkVisibility()
    && part.getBoundingClientRect().right > document.querySelector("main").getBoundingClientRect().right
).map((part) => part.outerHTML.slice(0, 120))"""
AXE = Axe()


def faults(page: Page, only: list[str] | None = None) -> list[str]:
    """What axe finds on the page as it stands, one line for each place."""
    chosen = {"type": "rule", "values": only} if only else {"type": "tag", "values": TAGS}
    options: dict[str, Any] = {"runOnly": chosen, "resultTypes": ["violations"]}
    if not only:
        options["rules"] = {"target-size": {"enabled": True}}
    found = AXE.run(page, options=options).response["violations"]
    return [f"{each['id']}: {node['html'][:200]}" for each in found for node in each["nodes"]]


def faults_everywhere(page: Page) -> list[str]:
    """The faults of a page at both widths by day, and by night."""
    found = []
    for size, scheme, only in ((WIDE, "light", None), (NARROW, "light", None), (NARROW, "dark", COLOURS)):
        page.set_viewport_size(size)
        page.emulate_media(color_scheme=scheme, reduced_motion="reduce")  # no colour on its way to another
        found += [f"{size['width']} px, {scheme}: {fault}" for fault in faults(page, only)]
        found += [f"{size['width']} px: sticks out: {part}" for part in page.evaluate(STICKING_OUT)]
    if page.evaluate(OVERFLOW) > 0:
        found.append(f"{page.evaluate(OVERFLOW)} px too wide for {NARROW['width']} px")
    return found


# No link of the demo leads to these: they need a letter, a change made just now, or a program.
# The second factor's own pages are opened by ``tests/accounts``, the others by the tests of their features.
BEHIND_NO_LINK = {
    "accessions.made",
    "accounts.code",
    "accounts.new_password",
    "accounts.set_up",
    "groups.asked",
    "groups.invitation",
    "vetting.review",
}
NO_PAGES = {"front.start", "health", "protocols.by_number", "sites.evidence", "sites.letter", "sites.signed",
            "vetting.photograph", "vetting.small_photograph"}  # fmt: skip


def seated(window: Callable[[], Window], role: str | None) -> Window:
    opened = window()
    return opened.sign_in(role) if role else opened


@pytest.fixture
def walks(window: Windows) -> dict[str | None, Walk]:
    """The way of each role through the demo."""
    return {role: walked(seated(window, role)) for role in ROLES}


def test_every_page_is_sound(walks: dict[str | None, Walk], window: Windows) -> None:
    """Of each kind of page the fullest that anybody sees, seen by whoever sees most."""
    fullest = {
        kind: max((walk.fullest.get(kind, NOWHERE), role or "") for role, walk in walks.items())
        for kind in set().union(*(walk.fullest for walk in walks.values()))
    }
    found = []
    for role in ROLES:
        page = seated(window, role).page
        for (_, address), seer in fullest.values():
            if seer == (role or ""):
                page.goto(address)
                found += [f"{role}: {address}\n  {fault}" for fault in faults_everywhere(page)]
    assert not found, "\n".join(found)


def test_links_lead_to_every_kind_of_page(walks: dict[str | None, Walk], demo_hub: DemoHub) -> None:
    """So the pages above are all the pages there are, but for those named here."""
    met = set().union(*(walk.fullest for walk in walks.values()))
    assert kinds_to_look_at(demo_hub.app) - met == BEHIND_NO_LINK | NO_PAGES


WITH_MISTAKES = [
    (None, "/join"),
    (None, "/sign-in"),
    ("group lead", "/sites/open"),
    ("group lead", "/our-group/invite"),
    ("curator", "/species/new"),
    ("curator", "/permits/record"),
    ("steward", "/hub/regions/new"),
]


@pytest.mark.parametrize(("role", "path"), WITH_MISTAKES)
def test_forms_that_show_what_is_wrong(role: str | None, path: str, window: Windows) -> None:
    """Sent without a word in it, each form comes back with its mistakes."""
    opened = seated(window, role)
    opened.page.goto(path)
    opened.page.locator("main form[method=post]").first.evaluate("form => { form.noValidate = true }")
    opened.page.locator("main form[method=post] button[type=submit]").first.click()
    opened.page.locator("#problems").wait_for()
    assert not faults_everywhere(opened.page)
