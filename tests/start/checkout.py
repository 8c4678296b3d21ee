"""A copy of this checkout as a new user gets it: what is kept, and nothing that was made since."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
KEPT = ("README.md", "pyproject.toml", ".gitignore", ".requirements", "hub", "templates", "demo_data")
MADE = shutil.ignore_patterns("__pycache__", "*.pyc")
# The Python that a person has, outside every environment.
PYTHON = getattr(sys, "_base_executable", sys.executable)


def fresh_checkout(folder: Path) -> Path:
    """Copy what a clone would hold of the hub itself."""
    for name in KEPT:
        source = ROOT / name
        if source.is_dir():
            shutil.copytree(source, folder / name, ignore=MADE)
        else:
            shutil.copy2(source, folder / name)
    return folder


def start(checkout: Path, *words: str, **environment: str) -> subprocess.CompletedProcess[str]:
    """``python3 -m hub …`` as a person types it there, outside every environment."""
    own = {name: value for name, value in os.environ.items() if name not in {"VIRTUAL_ENV", "PYTHONPATH"}}
    return subprocess.run(
        [PYTHON, "-m", "hub", *words],
        cwd=checkout,
        env={**own, **environment},
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
    )
