"""The note in ``.venv``: when an environment counts as complete, half-made or out of date."""

from __future__ import annotations

from pathlib import Path

import pytest

from hub.bootstrap import stamp


@pytest.fixture
def root(tmp_path: Path) -> Path:
    """A checkout with small locks and an environment whose Python is there."""
    (tmp_path / ".requirements").mkdir()
    for name in ("run", "test", "build"):
        (tmp_path / ".requirements" / f"{name}.lock").write_text(f"{name}-package==1\n")
    (tmp_path / ".venv" / "bin").mkdir(parents=True)
    (tmp_path / ".venv" / "bin" / "python").touch()
    return tmp_path


def completed(root: Path, purpose: str) -> None:
    stamp.begin(root)
    stamp.finish(root, purpose)
    stamp.note_libraries(root)


def test_an_environment_without_a_note_is_neither_fresh_nor_half_made(root: Path):
    assert not stamp.fresh(root, "run")
    assert not stamp.half_made(root)


def test_a_finished_one_is_fresh(root: Path):
    completed(root, "run")
    assert stamp.fresh(root, "run")
    assert not stamp.fresh(root, "test")


def test_one_made_for_the_checks_serves_the_hub_as_well(root: Path):
    completed(root, "test")
    assert stamp.fresh(root, "test")
    assert stamp.fresh(root, "run")


def test_an_interrupted_one_is_half_made(root: Path):
    completed(root, "run")
    stamp.begin(root)
    assert stamp.half_made(root)
    assert not stamp.fresh(root, "run")


@pytest.mark.parametrize("lock", ["run", "build"])
def test_a_changed_lock_is_noticed(root: Path, lock: str):
    completed(root, "run")
    (root / ".requirements" / f"{lock}.lock").write_text("other==2\n")
    assert not stamp.fresh(root, "run")
    assert not stamp.half_made(root)


def test_missing_libraries_are_looked_for_again(root: Path):
    stamp.finish(root, "run")
    assert stamp.locks_met(root, "run")
    assert not stamp.fresh(root, "run")


def test_a_moved_checkout_makes_its_environment_anew(root: Path, tmp_path_factory: pytest.TempPathFactory):
    completed(root, "run")
    elsewhere = tmp_path_factory.mktemp("moved") / "checkout"
    root.rename(elsewhere)
    assert stamp.half_made(elsewhere)
    assert not stamp.fresh(elsewhere, "run")


def test_a_python_that_was_taken_away_is_noticed(root: Path):
    completed(root, "run")
    (root / ".venv" / "bin" / "python").unlink()
    assert not stamp.fresh(root, "run")
