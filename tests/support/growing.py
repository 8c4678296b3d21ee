"""Makes a played season several times as large: every row gets copies beside it, and each copy its own below.

The copies are written straight into the tables. They need not make sense to a person; they must only be read
by the same queries as what they copy.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from contextlib import suppress
from typing import Any
from uuid import UUID, uuid4

from sqlalchemy import Column, Table, UniqueConstraint, insert, select
from sqlalchemy.exc import IntegrityError

from hub.db.base import Base
from hub.db.work import Work

COPIES = 4
# What the hub keeps for itself, what is one of a kind, and whose copies nobody could work in.
LEFT_ALONE = frozenset(
    {"answered_request", "audit_entry", "audit_head", "letter", "rate_count", "serial", "sheet_renewal"}
    | {"reset_link", "sign_in", "region", "bank", "season", "stage_count", "taxon_ecoregion"}
)
KEPT_APART = frozenset({"search_key"})  # unique by what the actions refuse, not by a rule of the tables
TENANTS = frozenset({"groups", "bank", "region"})  # copies stay with the tenants of what they copy
Row = dict[str, Any]


class Growth:
    """Copies of every row, parents before their children."""

    def __init__(self, work: Work) -> None:
        self.work = work
        self.copies_of: dict[tuple[str, UUID], list[UUID]] = defaultdict(list)

    def grow(self) -> dict[str, int]:
        """How many rows each table has been given."""
        return {table.name: self.grow_table(table) for table in growing()}

    def grow_table(self, table: Table) -> int:
        rows = [dict(row) for row in self.work.db.execute(select(table)).mappings()]
        added = 0
        for row in rows:
            for place in range(COPIES):
                added += self.add(table, {**row, **self.below_copies(table, row, place)}, row["id"])
                added += self.add(table, dict(row), row["id"])
        return added

    def below_copies(self, table: Table, row: Row, place: int) -> Row:
        """The keys of the parents' copies, for those that point to parents which were copied."""
        found: Row = {}
        for column, parent in parents(table):
            if copies := self.copies_of.get((parent, row[column])):
                found[column] = copies[min(place, len(copies) - 1)]
        return found

    def add(self, table: Table, row: Row, original: UUID) -> bool:
        """Write one copy; False where the tables allow no second row of its kind."""
        copy = {**row, "id": uuid4()} | marked(table, row)
        with suppress(IntegrityError), self.work.db.begin_nested():
            self.work.db.execute(insert(table), copy)
            self.copies_of[(table.name, original)].append(copy["id"])
            return True
        return False


def growing() -> list[Table]:
    return [table for table in Base.metadata.sorted_tables if table.name not in LEFT_ALONE]


def parents(table: Table) -> Iterator[tuple[str, str]]:
    """The columns that point to another row, with the table it stands in."""
    for constraint in table.foreign_key_constraints:
        for element in constraint.elements:
            if element.column.name == "id" and element.column.table.name not in TENANTS:
                yield element.parent.name, element.column.table.name


def marked(table: Table, row: Mapping[str, Any]) -> Row:
    """New values for what must be told apart: names, numbers and years of which there may be one alone."""
    keys = {column for column, _ in parents(table)} | {"id"}
    unique = {column.name: column for column in unique_columns(table) if column.name not in keys}
    return {name: told_apart(row[name], column) for name, column in unique.items()}


def unique_columns(table: Table) -> Iterator[Column[Any]]:
    yield from (column for column in table.columns if column.unique or column.name in KEPT_APART)
    for constraint in table.constraints:
        if isinstance(constraint, UniqueConstraint):
            yield from constraint.columns


def told_apart(value: Any, column: Column[Any]) -> Any:
    """Another value of the same kind; keys and what is not known stay."""
    if isinstance(value, str):
        mark = uuid4().hex[:6]
        room = getattr(column.type, "length", None) or 200
        return value[: room - len(mark)] + mark
    return uuid4().int % 900_000 + 1_000 if isinstance(value, int) else value
