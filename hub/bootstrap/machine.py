"""Looks at the machine and the environment, and answers with the facts that the plan is made from."""

from __future__ import annotations

import importlib.util
import os
import shutil
import subprocess
import sys
from pathlib import Path

from hub.bootstrap import debian, stamp
from hub.bootstrap.plan import Situation


def look(root: Path, purpose: str) -> Situation:
    """The facts of this moment. ``purpose`` is ``run`` for using the hub, ``test`` for checking it."""
    return Situation(
        python=sys.version_info[:2],
        writable=os.access(root, os.W_OK),
        usable=not stamp.half_made(root) and can_be_filled(root),
        locks_met=stamp.locks_met(root, purpose) and starts(python_of(root)),
        uv=uv_for(root) is not None,
        ensurepip=importlib.util.find_spec("ensurepip") is not None,
        libraries=debian.missing_libraries(),
        programs=debian.missing_programs() if purpose == "test" else (),
        may_install=debian.may_install(),
    )


def python_of(root: Path) -> str:
    """The environment's own Python."""
    return str(root / ".venv" / "bin" / "python")


def starts(*command: str) -> bool:
    """Whether a program answers: a leftover link or launcher can be found, and still not start."""
    try:
        return subprocess.run([*command, "--version"], capture_output=True).returncode == 0  # noqa: S603
    except OSError:
        return False


def uv_for(root: Path) -> str | None:
    """The quick installer, the machine's own or one fetched into the environment before."""
    for candidate in (shutil.which("uv"), str(root / ".venv" / "bin" / "uv")):
        if candidate and starts(candidate):
            return candidate
    return None


def can_be_filled(root: Path) -> bool:
    """Whether the environment's Python starts and something can install into it."""
    python = python_of(root)
    return starts(python) and (uv_for(root) is not None or starts(python, "-m", "pip"))
