"""Pages of a list by key: each costs the same, however long the list is and however deep the reader goes.

The address of a page carries the sort values of the row at its edge, signed, so that nobody can write one.
Empty values come last in either direction. The last key must be unique, or rows would be lost between pages.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from typing import Any
from uuid import UUID

from itsdangerous import BadData, URLSafeSerializer
from sqlalchemy import Select
from werkzeug.exceptions import BadRequest

from hub.db.keyset import SortKey, past
from hub.db.work import Work
from hub.words import say

PAGE = 50
TORN = say("The address of this page of the list is not complete. Please start from the list’s first page.")


@dataclass(frozen=True)
class Page:
    """Some rows of a list, in order, and the cursors of the pages before and after, where there are any."""

    items: list[Any]
    next: str | None = None
    previous: str | None = None


def page_of(
    work: Work, statement: Select[*tuple[Any, ...]], by: Sequence[Any], *, at: str = "", size: int = PAGE
) -> Page:
    """The page of a list at a cursor, the first page without one. Raises BadRequest for a torn cursor.

    Items are the entities of a statement that selects one thing, and whole rows of one that selects several.
    """
    keys = [SortKey.of(column) for column in by]
    signer = URLSafeSerializer(work.settings.secret_key, salt=f"page of {[str(key) for key in keys]}")
    backwards, edge = opened(signer, at)
    rows = fetched(work, statement, keys, backwards, edge, size + 1)
    more = len(rows) > size
    rows = rows[:size][::-1] if backwards else rows[:size]
    if not rows:
        return Page([])
    single = len(statement.column_descriptions) == 1
    before, after = (more, True) if backwards else (bool(edge), more)
    return Page(
        [row[0] if single else row for row in rows],
        next=sealed(signer, False, rows[-1], len(keys)) if after else None,
        previous=sealed(signer, True, rows[0], len(keys)) if before else None,
    )


def fetched(
    work: Work,
    statement: Select[*tuple[Any, ...]],
    keys: list[SortKey],
    backwards: bool,
    edge: list[Any],
    size: int,
) -> list[Any]:
    order = [part for key in keys for part in key.order(backwards)]
    asked = statement.add_columns(*(key.column for key in keys)).order_by(None).order_by(*order).limit(size)
    if edge:
        asked = asked.where(past(keys, edge, backwards))
    return list(work.db.execute(asked).all())


def sealed(signer: URLSafeSerializer, backwards: bool, row: Any, count: int) -> str:
    """A cursor: the direction and the sort values of the row at the edge."""
    return str(signer.dumps([int(backwards), *(packed(value) for value in tuple(row)[-count:])]))


def opened(signer: URLSafeSerializer, cursor: str) -> tuple[bool, list[Any]]:
    if not cursor:
        return False, []
    try:
        backwards, *values = signer.loads(cursor)
    except BadData:
        raise BadRequest(TORN) from None  # type: ignore[arg-type]
    return bool(backwards), [unpacked(value) for value in values]


READERS: dict[str, Callable[[str], Any]] = {
    "moment": datetime.fromisoformat,
    "day": date.fromisoformat,
    "decimal": Decimal,
    "id": UUID,
}


def packed(value: Any) -> Any:
    """A sort value as JSON, with its kind where JSON has none like it."""
    match value:
        case datetime():
            return {"moment": value.isoformat()}
        case date():
            return {"day": value.isoformat()}
        case Decimal():
            return {"decimal": str(value)}
        case UUID():
            return {"id": str(value)}
        case _:
            return value


def unpacked(value: Any) -> Any:
    if isinstance(value, dict):
        ((kind, text),) = value.items()
        return READERS[kind](text)
    return value
