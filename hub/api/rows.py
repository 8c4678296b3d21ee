"""Small questions that the resources share: exactly one row, and words looked for in some columns."""

from __future__ import annotations

from typing import Any

from sqlalchemy import ColumnElement, Select, or_, true

from hub.db.work import Work
from hub.words import NotFound


def only(work: Work, statement: Select[*tuple[Any, ...]]) -> Any:
    """The one row of a statement, or its one entity. Raises NotFound."""
    row = work.db.execute(statement).one_or_none()
    if row is None:
        raise NotFound("row")
    return row[0] if len(row) == 1 else row


def said_in(search: str | None, *columns: Any) -> ColumnElement[bool]:
    """Rows in which one of the columns holds the words, capitals or not; all rows without any."""
    if not search:
        return true()
    return or_(*(column.icontains(search, autoescape=True) for column in columns))


def where_given(columns: dict[Any, Any]) -> list[ColumnElement[bool]]:
    """One condition for each column whose value is given."""
    return [column == value for column, value in columns.items() if value is not None]
