"""Drawn PDFs on disk: found again, put down whole, and thrown away when nobody asks or room runs out."""

from __future__ import annotations

import os
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

from hub.db.work import House

DAY = 24 * 60 * 60  # seconds
UNUSED = 30 * DAY
MEGABYTE = 1024 * 1024


def found(path: Path) -> bytes | None:
    """What is kept here, if it is. A file that is used stays: its time is moved on, once a day at most."""
    try:
        body = path.read_bytes()
        if time.time() - path.stat().st_mtime > DAY:
            os.utime(path)
    except FileNotFoundError:
        return None
    return body


def keep(path: Path, body: bytes) -> None:
    """Put a file where others look for it only once it is whole."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, draft = tempfile.mkstemp(dir=path.parent)
    with os.fdopen(handle, "wb") as file:
        file.write(body)
    os.replace(draft, path)


def prune(house: House) -> int:
    """Throw away what nobody asked for in a month, then the longest unused until the rest fits its room.

    Part of the hub's upkeep. Nothing is lost: what is asked for again is drawn again. Returns how many files
    went.
    """
    now, room, gone = time.time(), house.settings.pdf_cache_mb * MEGABYTE, 0
    for used, size, path in sorted(kept_files(house.settings.pdf_cache), reverse=True):
        room -= size
        if room < 0 or now - used > UNUSED:
            path.unlink(missing_ok=True)
            gone += 1
    return gone


def kept_files(folder: Path) -> Iterator[tuple[float, int, Path]]:
    """Every file with when it was used last and its size in bytes; drafts left by a crash among them."""
    for path in folder.rglob("*"):
        try:
            seen = path.stat()
        except FileNotFoundError:  # another process throws away at the same time
            continue
        if path.is_file():
            yield seen.st_mtime, seen.st_size, path
