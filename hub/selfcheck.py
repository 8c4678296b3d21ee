"""``hub test``: every check of the house, one after the other, and one verdict at the end.

Standard library only, as it must be able to say in plain words that the tools are missing.
"""

from __future__ import annotations

import importlib.util
import os
import shlex
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path

from hub.bootstrap import ROOT
from hub.bootstrap.debian import install_command, missing_programs

CHECKS = {
    "style": ["ruff", "check", "."],
    "format": ["ruff", "format", "--check", "."],
    "types": ["mypy"],
    "import order": ["lint-imports"],
}


def main(arguments: list[str]) -> int:
    """Run every check; ``arguments`` go to pytest. Answers 1 when any failed, 2 when it cannot begin."""
    if not (ROOT / "tests").is_dir() or importlib.util.find_spec("pytest") is None:
        print("hub test: the checks run from a checkout, as “python3 -m hub test”.", file=sys.stderr)
        return 2
    absent = missing_programs()
    failed = [name for name, words in steps(arguments).items() if not passed(name, words, absent)]
    failed += told_about(absent, os.environ)
    print(f"\nhub test: {'failed: ' + ', '.join(failed) if failed else 'everything passed'}.", flush=True)
    return 1 if failed else 0


def steps(arguments: list[str]) -> dict[str, list[str]]:
    """The name of each step and its command, a program of the environment."""
    return {**CHECKS, "tests": ["pytest", *(arguments or ["-n", "2", "--quiet", "-rs"])]}


def passed(name: str, words: list[str], absent: tuple[str, ...]) -> bool:
    """Run one step where its output can be read as it comes."""
    print(f"\nhub test: {name} ({shlex.join(words)})", flush=True)
    program = Path(sys.executable).with_name(words[0])
    environment = {**os.environ, "HUB_TEST_WITHOUT": ",".join(absent)}
    return subprocess.run([program, *words[1:]], cwd=ROOT, env=environment).returncode == 0  # noqa: S603


def told_about(absent: tuple[str, ...], environment: Mapping[str, str]) -> list[str]:
    """Say which parts were left out; on a build server what was left out counts as failed."""
    for part in absent:
        print(f"hub test: the checks with {part} were left out. To add it: {install_command((part,))}")
    return [f"{part} is missing" for part in absent] if environment.get("CI") == "true" else []
