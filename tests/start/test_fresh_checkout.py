"""``python3 -m hub …`` in a fresh copy: made once, repaired when needed, then in no one’s way."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

from tests.start.checkout import fresh_checkout, start

ASK = ("serve", "--help")  # runs inside the environment, and ends by itself
OFFLINE = {"UV_OFFLINE": "1", "UV_NO_CACHE": "1", "PIP_NO_INDEX": "1", "PIP_FIND_LINKS": ""}


@pytest.fixture(scope="module")
def checkout(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy that was started once."""
    folder = fresh_checkout(tmp_path_factory.mktemp("checkout"))
    run = start(folder, *ASK)
    assert run.returncode == 0, run.stdout + run.stderr
    assert "Making the environment" in run.stdout
    assert run.stdout.index("Installing the locked packages") < run.stdout.index("usage: hub serve")
    return folder


def test_a_second_start_says_and_does_nothing_of_its_own(checkout: Path):
    note = checkout / ".venv" / "contents"
    before = note.stat().st_mtime_ns
    run = start(checkout, *ASK)
    assert run.stdout.startswith("usage: hub serve")
    assert run.stderr == ""
    assert note.stat().st_mtime_ns == before


def test_the_hub_command_stands_in_the_environment(checkout: Path, tmp_path: Path):
    command = [checkout / ".venv" / "bin" / "hub", "--help"]
    run = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True)
    assert run.stdout.startswith("usage: hub COMMAND")


def test_the_checkout_alone_is_what_runs(checkout: Path):
    """An editable installation must not leave a second, ageing copy of the templates behind."""
    assert list((checkout / ".venv").rglob("site-packages/hub")) == []


def test_an_interrupted_start_is_begun_afresh(checkout: Path):
    (checkout / ".venv" / "contents").write_text("unfinished\n")
    leftover = checkout / ".venv" / "leftover"
    leftover.touch()
    run = start(checkout, *ASK)
    assert run.returncode == 0, run.stderr
    assert "Making the environment" in run.stdout
    assert not leftover.exists()


def test_help_and_unknown_commands_need_no_environment(tmp_path: Path):
    folder = fresh_checkout(tmp_path)
    assert start(folder, "--help").returncode == 0
    assert start(folder, "harvest").returncode == 2
    assert not (folder / ".venv").exists()


def test_without_a_network_it_says_so_and_the_next_start_repairs(tmp_path: Path):
    folder = fresh_checkout(tmp_path)
    run = start(folder, *ASK, **OFFLINE)
    assert run.returncode == 1
    assert "Is this machine connected to the internet?" in run.stderr
    assert "Traceback" not in run.stderr
    assert start(folder, *ASK).returncode == 0


def test_a_file_in_the_place_of_the_environment_gets_a_sentence(tmp_path: Path):
    folder = fresh_checkout(tmp_path)
    (folder / ".venv").write_text("not a folder")
    run = start(folder, *ASK)
    assert run.returncode == 1
    assert run.stderr.startswith("hub: ")
    assert ".venv" in run.stderr
    assert "Traceback" not in run.stderr


def test_where_python_keeps_nothing_the_environment_keeps_what_it_compiled(checkout: Path):
    """Without that, every start would compile every library anew, for seconds."""
    for made in list((checkout / "hub").rglob("__pycache__")):
        shutil.rmtree(made)
    start(checkout, *ASK, PYTHONDONTWRITEBYTECODE="1")
    assert list((checkout / ".venv" / "compiled").rglob("serving.*.pyc"))
    assert list((checkout / "hub").rglob("__pycache__")) == []
