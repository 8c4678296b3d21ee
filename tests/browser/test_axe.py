"""Every page that a role can reach passes axe, narrow and wide, light and dark, and fits a narrow screen.

Axe-core 4.12 with its rules for WCAG 2.0 to 2.2, levels A and AA, and its best practices. 320 CSS pixels
is the width of WCAG 2.2, success criterion 1.4.10 (reflow).
"""

from __future__ import annotations

from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

from tests.browser.walk import pages_of
from tests.support.chromium import Window, Windows

TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
# The structure of a page is the same by day and by night: only what looks at colours is asked twice.
COLOURS = ["color-contrast", "link-in-text-block"]
NARROW, WIDE = {"width": 320, "height": 640}, {"width": 1280, "height": 900}
ROLES = ["group lead", "school teacher", "member", "curator", "technician", "coordinator", "steward"]
OVERFLOW = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
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
    """The faults of a page at both widths, by day and by night."""
    found = []
    for size in (NARROW, WIDE):
        page.set_viewport_size(size)
        for scheme, only in (("light", None), ("dark", COLOURS)):
            page.emulate_media(color_scheme=scheme)
            found += [f"{size['width']} px, {scheme}: {fault}" for fault in faults(page, only)]
        if size is NARROW and page.evaluate(OVERFLOW) > 0:
            found.append(f"{page.evaluate(OVERFLOW)} px too wide for {NARROW['width']} px")
    return found


def assert_every_page_is_sound(window: Window) -> None:
    found = [
        f"{address}\n  {fault}" for address in pages_of(window) for fault in faults_everywhere(window.page)
    ]
    assert not found, "\n".join(found)


def test_the_pages_of_a_visitor(window: Windows) -> None:
    assert_every_page_is_sound(window())


@pytest.mark.parametrize("role", ROLES)
def test_the_pages_of(role: str, window: Windows) -> None:
    assert_every_page_is_sound(window().sign_in(role))


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
    opened = window()
    if role:
        opened.sign_in(role)
    opened.page.goto(path)
    opened.page.locator("main form[method=post]").first.evaluate("form => { form.noValidate = true }")
    opened.page.locator("main form[method=post] button[type=submit]").first.click()
    opened.page.locator("#problems").wait_for()
    assert not faults_everywhere(opened.page)
