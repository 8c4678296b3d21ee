"""The map in DEVELOPERS.md names every package of the hub, in the order in which they may import."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
MAP = re.findall(r"^\| `hub/(\w+)(?:\.py)?` \| \S", (ROOT / "DEVELOPERS.md").read_text(), re.MULTILINE)


def packages() -> set[str]:
    """Every module and package directly below ``hub/``, the two that Python names itself left aside."""
    modules = {file.stem for file in (ROOT / "hub").glob("*.py")}
    folders = {file.parent.name for file in (ROOT / "hub").glob("*/__init__.py")}
    return (modules | folders) - {"__init__", "__main__"}


def layers() -> list[str]:
    """The import order of the linter's contract, lowest first."""
    contracts = tomllib.loads((ROOT / "pyproject.toml").read_text())["tool"]["importlinter"]["contracts"]
    return [layer.strip("()") for layer in reversed(contracts[0]["layers"])]


def test_the_map_names_every_package_and_nothing_else():
    assert sorted(MAP) == sorted(packages())


def test_the_map_stands_in_the_order_of_imports():
    assert [name for name in layers() if name in MAP] == MAP


def test_the_optional_layers_are_those_not_built_yet():
    contracts = tomllib.loads((ROOT / "pyproject.toml").read_text())["tool"]["importlinter"]["contracts"]
    optional = {layer.strip("()") for layer in contracts[0]["layers"] if layer.startswith("(")}
    assert optional & packages() == set(), "built by now: take the brackets off in pyproject.toml"
