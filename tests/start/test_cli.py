"""The commands: what is listed, and what happens to a word that is none of them."""

from __future__ import annotations

import importlib
import subprocess
import sys
from pathlib import Path

import pytest

from hub import cli

ROOT = Path(__file__).resolve().parents[2]


@pytest.mark.parametrize("words", [[], ["--help"], ["-h"], ["help"]])
def test_help_lists_each_command_on_a_line_of_its_own(words: list[str], capsys: pytest.CaptureFixture[str]):
    assert cli.main(words) == 0
    listed = [line.split(None, 1) for line in capsys.readouterr().out.splitlines() if line.startswith("  ")]
    assert listed == [[name, command.summary] for name, command in cli.COMMANDS.items()]


def test_an_unknown_command_gets_a_sentence(capsys: pytest.CaptureFixture[str]):
    assert cli.main(["harvest"]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err == (
        "hub: there is no command “harvest”. The commands are: " + ", ".join(cli.COMMANDS) + ".\n"
    )


@pytest.mark.parametrize("name", cli.COMMANDS)
def test_every_command_stands_where_the_table_says(name: str):
    command = cli.COMMANDS[name]
    assert callable(getattr(importlib.import_module(command.module), command.function))


def test_help_imports_nothing_but_the_standard_library():
    program = "import sys; from hub import cli; cli.main([]); print(*sys.modules, sep='\\n', file=sys.stderr)"
    run = subprocess.run(
        [sys.executable, "-c", program], cwd=ROOT, capture_output=True, text=True, check=True
    )
    own = {name for name in run.stderr.split() if name.startswith("hub")}
    assert own == {"hub", "hub.cli"}
    assert not {"flask", "sqlalchemy", "granian"} & set(run.stderr.split())
