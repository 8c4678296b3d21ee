"""Files and functions stay small enough to be read in one go."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
HUB = sorted(path for path in (ROOT / "hub").rglob("*.py") if "migrations" not in path.parts)
TESTS = sorted((ROOT / "tests").rglob("*.py"))
LONGEST_FILE, LONGEST_FUNCTION, LONGEST_PAGE = 300, 40, 25


def functions(path: Path) -> list[tuple[str, int]]:
    tree = ast.parse(path.read_text("utf-8"))
    return [
        (node.name, (node.end_lineno or 0) - node.lineno + 1)
        for node in ast.walk(tree)
        if isinstance(node, ast.FunctionDef)
    ]


@pytest.mark.parametrize("path", [*HUB, *TESTS], ids=lambda path: str(path.relative_to(ROOT)))
def test_no_file_is_too_long(path: Path) -> None:
    lines = len(path.read_text("utf-8").splitlines())
    assert lines <= LONGEST_FILE, f"{lines} lines: make it a folder of the same name"


@pytest.mark.parametrize("path", HUB, ids=lambda path: str(path.relative_to(ROOT)))
def test_no_function_is_too_long(path: Path) -> None:
    most = LONGEST_PAGE if "pages" in path.parts or path.name == "pages.py" else LONGEST_FUNCTION
    long = {name: lines for name, lines in functions(path) if lines > most}
    assert not long, f"longer than {most} lines: {long}"


@pytest.mark.parametrize("path", [*HUB, *TESTS], ids=lambda path: str(path.relative_to(ROOT)))
def test_no_file_has_a_name_that_says_nothing(path: Path) -> None:
    assert path.stem not in {"utils", "util", "helpers", "helper", "common", "misc", "manager"}


@pytest.mark.parametrize("path", [*HUB, *TESTS], ids=lambda path: str(path.relative_to(ROOT)))
def test_every_module_opens_with_a_sentence(path: Path) -> None:
    text = path.read_text("utf-8")
    assert not text.strip() or ast.get_docstring(ast.parse(text)), "say in a sentence what this file is for"
