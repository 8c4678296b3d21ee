"""Finds the standards' own files, which are kept beside the project and not in it."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

REFERENCE_DATA = Path(__file__).resolve().parents[2].parent / "shared" / "reference-data"


def reference_file(name: str) -> Path:
    """The path of one reference file; skips the test, saying so, when it is not at hand."""
    path = REFERENCE_DATA / name
    if not path.is_file():
        pytest.skip(f"the reference file {name} is not beside the project")
    return path


def reference_rows(name: str) -> list[dict[str, str]]:
    """The rows of one reference table, as text."""
    with reference_file(name).open(encoding="utf-8", newline="") as table:
        return list(csv.DictReader(table))
