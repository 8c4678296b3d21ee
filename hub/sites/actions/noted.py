"""How a change of some fields is made and noted: what differs, before and after, as plain JSON values."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import Any

from hub.sites.models import Population, Site
from hub.words import Refused, say

STALE = say("Somebody changed this while you were looking at it. Load the page again, then make your change.")
Noted = dict[str, Any]


def check_version(thing: Site | Population, version: int | None) -> None:
    """Raises Refused when the asker looked at an older version."""
    if version is not None and version != thing.version:
        raise Refused(STALE)


def changes(thing: Any, fields: Mapping[str, Any], *, unnoted: Collection[str] = ()) -> tuple[Noted, Noted]:
    """Set the fields that differ; gives what they were and what they are, places and addresses unsaid."""
    before: Noted = {}
    after: Noted = {}
    for name, value in fields.items():
        held = getattr(thing, name)
        if held == value:
            continue
        setattr(thing, name, value)
        before[name], after[name] = ("…", "…") if name in unnoted else (plain(held), plain(value))
    return before, after


def plain(value: Any) -> Any:
    """A value as JSON has it."""
    return value if value is None or isinstance(value, bool | int | float | list) else str(value)
