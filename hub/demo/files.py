"""The files of the demo folder, read as they are. What they mean is told in ``demo_data/README.md``."""

from __future__ import annotations

import csv
import json
import tomllib
from datetime import UTC, date, datetime, time
from functools import cache
from pathlib import Path
from typing import Any

from hub.config import resource_folder

MORNING = time(9, 0, tzinfo=UTC)
Entry = dict[str, Any]


@cache
def folder() -> Path:
    return resource_folder("demo_data")


@cache
def toml(name: str) -> Entry:
    """A TOML file of the demo by its path inside the folder."""
    return tomllib.loads((folder() / name).read_text("utf-8"))


def entries(name: str, table: str) -> list[Entry]:
    """The entries of one table of a TOML file."""
    found: list[Entry] = toml(name).get(table, [])
    return found


def rows(name: str) -> list[dict[str, str]]:
    """The rows of a CSV file, by heading."""
    with (folder() / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def features(name: str) -> list[Entry]:
    """The features of a GeoJSON file."""
    found: list[Entry] = json.loads((folder() / name).read_text("utf-8"))["features"]
    return found


def today() -> date:
    """The day on which the demo stands."""
    found: date = toml("region.toml")["today"]
    return found


def years() -> list[int]:
    """The seasons that the demo tells of, oldest first."""
    return sorted(int(path.stem) for path in (folder() / "seasons").glob("*.toml"))


def on(day: date | datetime | str, hour: int = 9) -> datetime:
    """A moment of a day: the one that the file gives, or an hour of the day it names."""
    if isinstance(day, str):
        day = date.fromisoformat(day)
    if isinstance(day, datetime):
        return day.astimezone(UTC)
    return datetime.combine(day, MORNING.replace(hour=hour))


def whole(text: str) -> int | None:
    """A count in a cell; nothing for an empty one."""
    return int(text) if text else None


def yes_no(text: str) -> bool | None:
    """An answer in a cell; nothing for an empty one."""
    return {"yes": True, "no": False}.get(text)


def years_in(text: str) -> list[int] | None:
    """Years in a cell, none for ``never``; nothing for an empty one."""
    return [int(year) for year in text.replace("never", "").split()] if text else None


def measure(text: str) -> float | None:
    """A measured number in a cell; nothing for an empty one."""
    return float(text) if text else None
