"""What programs may do, put for people: the operations by resource, as the page at /api shows them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from hub.api.declared import operations
from hub.api.operation import Operation
from hub.words import Words


@dataclass(frozen=True)
class Line:
    """One operation. ``along`` are the headers that it asks for."""

    method: str
    path: str
    summary: Words
    right: str
    along: list[str]


def by_tag() -> Iterator[tuple[str, list[Line]]]:
    """The operations of each resource, in the order in which they are declared."""
    for tag, found in groupby(sorted(operations(), key=lambda each: each.tag), key=lambda each: each.tag):
        yield tag, [line_of(operation) for operation in found]


def line_of(operation: Operation) -> Line:
    asked = (("Idempotency-Key", operation.once), ("If-Match", operation.current is not None))
    return Line(
        operation.method,
        operation.documented_path,
        operation.summary,
        "" if operation.is_public else str(operation.needs),
        [name for name, wanted in asked if wanted],
    )
