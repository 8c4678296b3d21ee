"""No feature goes round the fences: bare SQL, tables and sessions of one's own stand in hub/db alone."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

HUB = Path(__file__).resolve().parents[2] / "hub"
FILES = sorted(path for path in HUB.rglob("*.py") if HUB / "db" not in path.parents)
SIDE_DOORS = {"text", "Session", "create_engine", "sessionmaker", "exec_driver_sql"}


def called(node: ast.AST) -> str:
    """The last name of what is called."""
    if not isinstance(node, ast.Call):
        return ""
    target = node.func
    return target.attr if isinstance(target, ast.Attribute) else getattr(target, "id", "")


def from_sqlalchemy(tree: ast.Module) -> set[str]:
    """The names that a file takes from SQLAlchemy."""
    return {
        alias.asname or alias.name
        for node in ast.walk(tree)
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("sqlalchemy")
        for alias in node.names
    }


@pytest.mark.parametrize("path", FILES, ids=lambda path: str(path.relative_to(HUB)))
def test_the_file_keeps_to_the_front_door(path: Path) -> None:
    tree = ast.parse(path.read_text("utf-8"))
    doors = SIDE_DOORS & from_sqlalchemy(tree)
    used = {called(node) for node in ast.walk(tree)}
    assert not doors & used, f"{path.name} calls {doors & used}: ask through work.db with mapped classes"
    tables = [
        node.lineno for node in ast.walk(tree) if isinstance(node, ast.Attribute) and node.attr == "__table__"
    ]
    assert not tables, f"{path.name}:{tables} selects from a bare table, which no fence sees"
