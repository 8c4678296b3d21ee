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
from sqlalchemy import ColumnElement, Select, and_, false, or_, true
from sqlalchemy.sql import operators
from sqlalchemy.sql.elements import UnaryExpression
from werkzeug.exceptions import BadRequest

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


@dataclass(frozen=True)
class SortKey:
    """One column that a list is sorted by."""

    column: ColumnElement[Any]
    descending: bool

    @classmethod
    def of(cls, column: Any) -> SortKey:
        """``Visit.seen_on`` or ``Visit.seen_on.desc()``."""
        plain = getattr(column, "__clause_element__", lambda: column)()
        if isinstance(plain, UnaryExpression) and plain.modifier in (operators.desc_op, operators.asc_op):
            return cls(plain.element, plain.modifier is operators.desc_op)
        return cls(plain, False)

    @property
    def may_be_empty(self) -> bool:
        return bool(getattr(self.column, "nullable", True))

    def order(self, backwards: bool) -> list[ColumnElement[Any]]:
        down = self.descending is not backwards
        value = self.column.desc() if down else self.column.asc()
        empty = self.column.is_(None)
        return [empty.desc() if backwards else empty.asc(), value] if self.may_be_empty else [value]

    def same(self, value: Any) -> ColumnElement[bool]:
        return self.column.is_(None) if value is None else self.column == value

    def beyond(self, value: Any, backwards: bool) -> ColumnElement[bool]:
        """Rows that come after a value in reading direction."""
        if value is None:
            return self.column.is_not(None) if backwards else false()
        further = self.column < value if self.descending is not backwards else self.column > value
        return further if backwards or not self.may_be_empty else or_(further, self.column.is_(None))

    def not_before(self, value: Any, backwards: bool) -> ColumnElement[bool]:
        """Says of the first key what the alternatives imply, so that an index can start at the edge."""
        if self.may_be_empty:
            return true()
        return self.column <= value if self.descending is not backwards else self.column >= value


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


def in_order(statement: Select[*tuple[Any, ...]], by: Sequence[Any]) -> Select[*tuple[Any, ...]]:
    """The whole list in its order, for downloads."""
    order = [part for column in by for part in SortKey.of(column).order(backwards=False)]
    return statement.order_by(None).order_by(*order)


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


def past(keys: list[SortKey], edge: list[Any], backwards: bool) -> ColumnElement[bool]:
    """Beyond the edge: further in the first key, or level in it and further in the second, and so on."""
    alternatives = []
    for at, (key, value) in enumerate(zip(keys, edge, strict=True)):
        level = [each.same(its) for each, its in zip(keys[:at], edge[:at], strict=True)]
        alternatives.append(and_(*level, key.beyond(value, backwards)))
    return and_(keys[0].not_before(edge[0], backwards), or_(*alternatives))


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
