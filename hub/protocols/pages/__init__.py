"""The pages of sheets and rules, a file for each."""

from hub.protocols.pages import (
    consents,
    issuing,
    overrides,
    paper,
    rulebook,
    sheet,
    sheet_list,
    trying,
)
from hub.protocols.pages.blueprint import pages

__all__ = [
    "consents", "issuing", "overrides", "pages", "paper", "rulebook", "sheet", "sheet_list", "trying",
]  # fmt: skip
