"""From a bare checkout to a running hub: makes ``.venv``, fills it by the locks, hands over to it.

Standard library only, and the modules that do work are imported only when there is work: starting
again must cost next to nothing.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path

from hub.bootstrap.stamp import fresh

ROOT = Path(__file__).resolve().parents[2]


def enter(arguments: list[str]) -> None:
    """Return inside a complete environment, or replace this process by one that runs in it.

    An installed package brings its own environment; only a checkout makes one. Exits with 1 and a
    sentence when the environment cannot be made.
    """
    if not (ROOT / "pyproject.toml").is_file():
        return
    purpose = "test" if arguments[:1] == ["test"] else "run"
    inside = Path(sys.prefix).resolve() == (ROOT / ".venv").resolve()
    # The checks also want programs from outside the environment: look for those once, on the way in.
    if not fresh(ROOT, purpose) or (purpose == "test" and not inside):
        from hub.bootstrap.build import complete

        complete(ROOT, purpose)
    if not inside:
        hand_over(arguments)


def hand_over(arguments: list[str]) -> None:
    """Go on as the environment's own Python, in the same process: signals and exit code stay right."""
    python = ROOT / ".venv" / "bin" / "python"
    if sys.dont_write_bytecode:
        # Compiling everything anew costs seconds at every start. Keep it, and leave no trace outside .venv.
        os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
        os.environ["PYTHONPYCACHEPREFIX"] = str(ROOT / ".venv" / "compiled")
    sys.stdout.flush()
    os.execv(python, [str(python), "-m", "hub", *arguments])  # noqa: S606 - no shell is wanted here
