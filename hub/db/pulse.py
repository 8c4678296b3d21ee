"""When the rounds last went about on this machine, and which duties broke off: a line in the data folder."""

from __future__ import annotations

import os
from collections.abc import Iterable
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

FILE = "rounds"


@dataclass(frozen=True)
class Pulse:
    """The end of a round, and the names of the duties that it could not finish."""

    at: datetime
    broken: tuple[str, ...] = ()


def note(folder: Path, at: datetime, broken: Iterable[str] = ()) -> None:
    """Write down a round; a folder that cannot be written to must not end the rounds."""
    fresh = folder / f"{FILE}.{os.getpid()}"
    with suppress(OSError):
        fresh.write_text(" ".join((at.isoformat(), *broken)), encoding="utf-8")
        fresh.replace(folder / FILE)


def last(folder: Path) -> Pulse | None:
    """The last round that was written down; None when there was none."""
    try:
        at, *broken = (folder / FILE).read_text(encoding="utf-8").split()
        return Pulse(datetime.fromisoformat(at), tuple(broken))
    except (OSError, ValueError):
        return None
