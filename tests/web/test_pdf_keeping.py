"""Drawn PDFs do not fill the disk: the unused go after a month, and the least used when there is no room."""

from __future__ import annotations

import os
import time
from dataclasses import replace
from pathlib import Path

from hub.db.work import House
from hub.rounds import ONCE_IN_A_WHILE, Rounds
from hub.web.pdf_keeping import DAY, MEGABYTE, UNUSED, found, keep, prune


def aged(path: Path, days: float, size: int = 10) -> Path:
    keep(path, b"x" * size)
    used = time.time() - days * DAY
    os.utime(path, (used, used))
    return path


def test_what_nobody_asked_for_in_a_month_goes(house: House) -> None:
    cache = house.settings.pdf_cache
    old, young = aged(cache / "ab" / "old.pdf", 31), aged(cache / "ab" / "young.pdf", 29)
    note = aged(cache / "known" / "cd" / "note", 31)
    draft = aged(cache / "ab" / "tmp-left-by-a-crash", 31)
    assert prune(house) == 3
    assert young.exists()
    assert not any(path.exists() for path in (old, note, draft))


def test_the_longest_unused_go_until_the_rest_fits(house: House) -> None:
    small = replace(house, settings=replace(house.settings, pdf_cache_mb=2))
    cache = house.settings.pdf_cache
    paths = [aged(cache / f"{days}.pdf", days, MEGABYTE) for days in range(1, 5)]
    assert prune(small) == 2
    assert [path.exists() for path in paths] == [True, True, False, False]
    assert prune(small) == 0


def test_what_is_used_stays(house: House) -> None:
    path = aged(house.settings.pdf_cache / "used.pdf", UNUSED / DAY - 1)
    assert found(path) == b"x" * 10
    assert time.time() - path.stat().st_mtime < DAY


def test_reading_often_does_not_write_often(house: House) -> None:
    path = aged(house.settings.pdf_cache / "used.pdf", 0.5)
    before = path.stat().st_mtime
    found(path)
    assert path.stat().st_mtime == before


def test_what_is_gone_is_not_found(house: House) -> None:
    assert found(house.settings.pdf_cache / "gone.pdf") is None


def test_a_hub_without_any_has_nothing_to_throw_away(house: House) -> None:
    assert prune(house) == 0


def test_it_is_part_of_the_upkeep(house: House) -> None:
    old = aged(house.settings.pdf_cache / "old.pdf", 31)
    Rounds(house).go(ONCE_IN_A_WHILE)
    assert not old.exists()
