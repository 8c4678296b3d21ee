"""The letters that the hub wrote, as whoever gets them reads them."""

from __future__ import annotations

import re

from sqlalchemy import select

from hub.accounts.models import Letter
from tests.cast import Cast


def letters_to(cast: Cast, address: str) -> list[Letter]:
    """All letters to one address, oldest first."""
    with cast.everywhere() as work:
        found = select(Letter).where(Letter.to == address).order_by(Letter.written_at, Letter.id)
        return list(work.db.scalars(found))


def link_in(letter: Letter) -> str:
    """The path of the first link of a letter that holds a secret."""
    match = re.search(r"http://127\.0\.0\.1:8020(/(?:reset|invitations)/\S+)", letter.body)
    assert match, letter.body
    return match[1]
