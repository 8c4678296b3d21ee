"""What a browser sent, read in the shape of a schema.

Rows of a table arrive as ``tallies-0-plant``; their numbers may have gaps, and rows with nothing in them are
left out. Every error that the schema finds among the rows that remain is traced back to the name on the page.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

from marshmallow import Schema, fields
from werkzeug.datastructures import FileStorage, MultiDict

from hub.web.fields import Upload

# Names that every form may send beside its own fields.
ALWAYS_ALLOWED = frozenset({"csrf_token", "next"})
STRANGERS_NAMED = 3
Path = tuple[str | int, ...]


@dataclass
class Reading:
    """The values found, where in the schema each name belongs, and the names that belong nowhere."""

    form: MultiDict[str, str]
    files: MultiDict[str, FileStorage]
    names: dict[Path, str] = field(default_factory=dict)
    read: set[str] = field(default_factory=set)

    def values(self, schema: Schema, prefix: str = "", path: Path = ()) -> dict[str, Any]:
        """Everything sent for the fields of one schema, empty boxes left out."""
        found = {}
        for attribute, inner in schema.load_fields.items():
            key = inner.data_key or attribute
            name = f"{prefix}{key}"
            self.names[(*path, key)] = name
            value = self.value(inner, name, (*path, key))
            if value is not None:
                found[key] = value
        return found

    def value(self, inner: fields.Field[Any], name: str, path: Path) -> Any:
        if isinstance(inner, fields.Nested):
            return self.rows(inner, name, path) if inner.many else self.part(inner.schema, name, path)
        self.read.add(name)
        filled = [value for value in self.boxes(inner, name) if has_content(value)]
        if isinstance(inner, fields.List):
            self.names |= {(*path, at): name for at in range(len(filled))}
            return filled or None
        return filled[0] if filled else None

    def boxes(self, inner: fields.Field[Any], name: str) -> list[Any]:
        """All that came under one name: texts, or files for a field that takes files."""
        single = inner.inner if isinstance(inner, fields.List) else inner
        return self.files.getlist(name) if isinstance(single, Upload) else self.form.getlist(name)

    def part(self, schema: Schema, name: str, path: Path) -> dict[str, Any] | None:
        return self.values(schema, f"{name}-", path) or None

    def rows(self, inner: fields.Nested, name: str, path: Path) -> list[dict[str, Any]] | None:
        rows: list[dict[str, Any]] = []
        for at in row_numbers(self.everything(), name):
            row = self.values(inner.schema, f"{name}-{at}-", (*path, len(rows)))
            if row:
                self.names[(*path, len(rows))] = f"{name}-{at}"
                rows.append(row)
        return rows or None

    def everything(self) -> Iterator[str]:
        yield from self.form
        yield from self.files

    @property
    def strangers(self) -> list[str]:
        """Names that this page does not ask for; the first few say enough."""
        return sorted(set(self.everything()) - self.read - ALWAYS_ALLOWED)[:STRANGERS_NAMED]


def has_content(value: str | FileStorage) -> bool:
    """Whether a box was filled: a file with a name, or a text with more than space in it."""
    return bool(value.filename) if isinstance(value, FileStorage) else bool(value.strip())


def row_numbers(names: Iterator[str], start: str) -> list[int]:
    """The numbers in use in ``start-0-…``, in order."""
    pattern = re.compile(re.escape(start) + r"-(\d{1,6})-", re.ASCII)
    return sorted({int(match[1]) for name in names if (match := pattern.match(name))})
