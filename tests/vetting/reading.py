"""Pages of the bench as the tests read them: lines of tables, and boxes that are ticked."""

from __future__ import annotations

from tests.support.html import Page, words_in


def lines(page: Page) -> list[str]:
    """Every line of every table, its cells with a stroke between."""
    return [" | ".join(words_in(cell) for cell in row) for row in page.all("tr")]


def ticked(page: Page) -> list[str]:
    """What is ticked among the findings."""
    boxes = [box for box in page.all("input") if box.get("name") == "finding_ids"]
    return [box.get("value", "") for box in boxes if box.get("checked") is not None]
