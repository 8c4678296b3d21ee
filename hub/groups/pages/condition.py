"""How the hub is, for its steward: the store, the letters, the disk and the rounds."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from werkzeug.wrappers import Response

from hub.accounts.models import LetterState
from hub.db.work import Work
from hub.groups.condition import LETTER_ORDERS, condition, letters
from hub.groups.pages.blueprint import pages
from hub.rights.right import Right
from hub.web.caller import house
from hub.web.downloads import csv_download
from hub.web.fields import Choice
from hub.web.listing import Asked, Filter
from hub.web.render import render
from hub.words import say

GIGABYTE = 1_000_000_000
LETTER_WORDS = {
    LetterState.WAITING: say("waiting"),
    LetterState.SENT: say("sent"),
    LetterState.FAILED: say("failed"),
}
FILTERS = (Filter("state", say("State"), Choice(LetterState), LETTER_WORDS.__getitem__),)
HEAD = (
    say("Written (UTC)"), say("To"), say("Subject"), say("State"), say("Tries"), say("Next try (UTC)"),
    say("Trouble"),
)  # fmt: skip


@pages.get("/hub/condition", needs=Right.HUB_MANAGE)
def hub_condition(work: Work) -> Response:
    return render("groups/condition.html", now=condition(work, house().engine), gigabyte=GIGABYTE)


@pages.get("/hub/letters", needs=Right.HUB_MANAGE)
def hub_letters(work: Work) -> Response:
    """Letters and what became of them. Their words hold links that are secrets, and are never shown."""
    asked = Asked.of(FILTERS, LETTER_ORDERS)
    statement = letters(**asked.values)
    if asked.wants_csv:
        return csv_download("letters", HEAD, csv_rows(asked.everything(work, statement)))
    return render(
        "groups/letters.html",
        asked=asked,
        page=asked.page(work, statement),
        states_offered=list(LETTER_WORDS.items()),
        state_words=LETTER_WORDS,
        waiting=LetterState.WAITING,
    )


def csv_rows(rows: Sequence[Any]) -> Iterator[tuple[object, ...]]:
    for row in rows:
        due = row.due_at.isoformat() if row.state is LetterState.WAITING else ""
        state = LETTER_WORDS[row.state]
        yield row.written_at.isoformat(), row.to, row.subject, state, row.tries, due, row.trouble
