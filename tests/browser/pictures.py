"""Takes the pictures of the README anew: ``.venv/bin/python -m tests.browser.pictures``."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory

import pypdfium2
from playwright.sync_api import Browser, sync_playwright

from hub.demo.building import build
from tests.support.chromium import DESK, EXECUTABLE, FLAGS, PHONE, Window
from tests.support.demo_hub import DemoHub, served

FOLDER = Path(__file__).resolve().parents[2] / "docs" / "pictures"
Take = Callable[[Window, Path], None]


def main() -> None:
    """Play the demo in a folder of its own, open it and photograph it."""
    FOLDER.mkdir(exist_ok=True)
    with TemporaryDirectory() as above, sync_playwright() as driver:
        folder = Path(above) / "hub"
        build(folder, say=lambda line: None)
        browser = driver.chromium.launch(executable_path=EXECUTABLE, args=FLAGS)
        with served(folder) as hub:
            take_all(hub, browser)
        browser.close()


def take_all(hub: DemoHub, browser: Browser) -> None:
    """One picture for each thing that a newcomer wants to see."""
    sights: dict[str, tuple[str, dict[str, int], Take]] = {
        "our-season": ("group lead", PHONE, first_screen),
        "sheet": ("group lead", DESK, first_sheet),
        "submission": ("curator", DESK, first_on_the_bench),
        "progress": ("coordinator", DESK, last_year),
    }
    for name, (role, size, take) in sights.items():
        window = Window.opened(hub, browser, viewport=size, device_scale_factor=1.5)
        take(window.sign_in(role), FOLDER / f"{name}.png")
        window.context.close()


def first_screen(window: Window, file: Path) -> None:
    """What somebody sees after signing in, before scrolling."""
    window.page.screenshot(path=file)


def last_year(window: Window, file: Path) -> None:
    """The map of a season that is over."""
    window.page.goto("/progress?year=2030")
    window.page.locator(".beside").screenshot(path=file)


def first_sheet(window: Window, file: Path) -> None:
    """The first page of a sheet on paper."""
    window.page.goto("/sheets")
    window.page.locator("main a[href^='/sheets/']").first.click()
    paper = window.page.locator("a[href$='sheet.pdf']").first.get_attribute("href")
    pages = pypdfium2.PdfDocument(window.context.request.get(f"{window.hub.url}{paper}").body())
    pages[0].render(scale=1.5).to_pil().save(file)


def first_on_the_bench(window: Window, file: Path) -> None:
    """The most urgent collection that waits for a curator."""
    window.page.locator("main a[href^='/bench/']:not([href*='consents'], [href*='findings'])").first.click()
    window.page.screenshot(path=file)


if __name__ == "__main__":
    main()
