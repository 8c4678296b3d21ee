"""What changed in a row, for the audit chain, and the refusal of a change that comes too late."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from enum import Enum
from typing import Any

from hub.db.base import Base
from hub.taxa.models import Taxon
from hub.words import Refused, say

STALE = say(
    "Somebody else has changed this species since you opened the page. What you typed is kept: "
    "compare it with the species’ page, then open this form again."
)


def check_version(taxon: Taxon, version: int | None) -> None:
    """Refuse when the species is no longer the one that somebody looked at."""
    if version is not None and version != taxon.version:
        raise Refused(STALE)


def put(row: Base, values: Mapping[str, Any]) -> tuple[dict[str, Any], dict[str, Any]]:
    """Set these values on a row; what they were and what they are, for those that changed."""
    changed = {name: value for name, value in values.items() if getattr(row, name) != value}
    before = {name: plain(getattr(row, name)) for name in changed}
    for name, value in changed.items():
        setattr(row, name, value)
    return before, {name: plain(value) for name, value in changed.items()}


def plain(value: Any) -> Any:
    """One value as JSON keeps it."""
    if isinstance(value, Enum):
        return value.value
    return value.isoformat() if isinstance(value, date) else value
