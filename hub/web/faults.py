"""What a schema refused, as lines for a command’s reader."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any


def faults(where: str, messages: Any) -> Iterator[str]:
    """One line for each wrong member: ``case.population.plants: Please give a whole number …``"""
    if isinstance(messages, Mapping):
        for name, inner in messages.items():
            yield from faults(where if name == "_schema" else f"{where}.{name}", inner)
    else:
        yield from (f"{where}: {message}" for message in messages)
