"""Letters by mail: written in the transaction of the change they tell of, delivered after it."""

from __future__ import annotations

from collections.abc import Sequence

from hub.accounts.models import Letter
from hub.db.work import Work
from hub.words import Words, say

Paragraph = Words | str

FOOT = say(
    "This letter comes from the seed hub at {address}. If you did not expect it, you need not do anything."
)


def post(work: Work, *, to: str, subject: Words, body: Sequence[Paragraph]) -> Letter:
    """Write one letter, one paragraph after the other. It leaves once the work is committed."""
    paragraphs = [*body, Words(FOOT.text, {"address": work.settings.base_url})]
    letter = Letter(
        to=to,
        subject=shortened(str(subject)),
        body="\n\n".join(map(str, paragraphs)) + "\n",
        written_at=work.now,
        due_at=work.now,
    )
    work.db.add(letter)
    return letter


def shortened(subject: str, most: int = 200) -> str:
    """One line that fits its column, even with a long name in it."""
    line = " ".join(subject.split())
    return line if len(line) <= most else f"{line[: most - 1]}…"


def address(work: Work, path: str) -> str:
    """The full address of a page of this hub, for use in a letter."""
    return f"{work.settings.base_url}{path}"
