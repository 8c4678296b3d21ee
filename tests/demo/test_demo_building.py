"""The demo comes to its place whole or not at all, however often its making is broken off."""

from __future__ import annotations

from pathlib import Path

import pytest

from hub.config import Misconfigured
from hub.demo.building import BUILT, UNFINISHED, build, days_ahead_in, sign_ins


class BrokenOff(Exception):
    """Whoever started the demo lost patience."""


def lose_patience(line: str) -> None:
    raise BrokenOff(line)


def test_a_play_that_was_broken_off_begins_anew(tmp_path: Path) -> None:
    """Its regions and banks stand by then, so a second play on top of it would find their codes taken."""
    for _ in range(2):
        with pytest.raises(BrokenOff):
            build(tmp_path, say=lose_patience)
    assert [entry.name for entry in tmp_path.iterdir()] == [UNFINISHED]


def test_a_play_that_was_over_only_goes_on_to_its_place(tmp_path: Path) -> None:
    """Broken off between two files: the mark is the last to arrive."""
    unfinished = tmp_path / UNFINISHED
    unfinished.mkdir()
    (unfinished / "files").mkdir()
    (unfinished / BUILT).write_text("7\n")
    (tmp_path / "hub.sqlite3").touch()
    assert build(tmp_path, say=lose_patience) == sign_ins()
    assert {entry.name for entry in tmp_path.iterdir()} == {"hub.sqlite3", "files", BUILT}
    assert days_ahead_in(tmp_path) == 7


def test_a_built_demo_is_left_alone(demo_folder: Path) -> None:
    assert not (demo_folder / UNFINISHED).exists()
    before = (demo_folder / BUILT).stat().st_mtime_ns
    build(demo_folder, say=lose_patience)
    assert (demo_folder / BUILT).stat().st_mtime_ns == before


@pytest.mark.parametrize("kept", ["hub.sqlite3", "secret"])
def test_a_folder_that_holds_another_hub_is_refused(kept: str, tmp_path: Path) -> None:
    """Its database may stand elsewhere; then the key and the files are what must not be touched."""
    (tmp_path / kept).write_text("of a real hub")
    with pytest.raises(Misconfigured, match="holds something that is no demo"):
        build(tmp_path, say=lose_patience)
    assert [entry.name for entry in tmp_path.iterdir()] == [kept]
    assert (tmp_path / kept).read_text() == "of a real hub"
