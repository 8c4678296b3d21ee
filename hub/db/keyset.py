"""Sorting by keys, and what lies beyond a row in that order: the ground of paging by key.

Empty values come last in either direction. The last key must be unique, or rows would be lost between pages.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import ColumnElement, Select, and_, false, or_, true
from sqlalchemy.sql import operators
from sqlalchemy.sql.elements import UnaryExpression


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


def in_order(statement: Select[*tuple[Any, ...]], by: Sequence[Any]) -> Select[*tuple[Any, ...]]:
    """The whole list in its order, for downloads."""
    order = [part for column in by for part in SortKey.of(column).order(backwards=False)]
    return statement.order_by(None).order_by(*order)


def past(keys: list[SortKey], edge: list[Any], backwards: bool) -> ColumnElement[bool]:
    """Beyond the edge: further in the first key, or level in it and further in the second, and so on."""
    alternatives = []
    for at, (key, value) in enumerate(zip(keys, edge, strict=True)):
        level = [each.same(its) for each, its in zip(keys[:at], edge[:at], strict=True)]
        alternatives.append(and_(*level, key.beyond(value, backwards)))
    return and_(keys[0].not_before(edge[0], backwards), or_(*alternatives))
