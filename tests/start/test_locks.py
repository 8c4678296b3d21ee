"""The locks: versions stand once, every file is known by its hash, and no registry is named."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text())
GROUPS = PROJECT["dependency-groups"]
LOCKS = sorted((ROOT / ".requirements").glob("*.lock"))
ASKED = {
    "run": PROJECT["project"]["dependencies"],
    "test": PROJECT["project"]["dependencies"] + GROUPS["test"],
    "build": GROUPS["build"],
    "installer": GROUPS["installer"],
}


def pins(lines: list[str]) -> dict[str, str]:
    """Name to version of every line that pins one; extras and markers left aside."""
    found = (re.match(r"([A-Za-z0-9._-]+)(?:\[.*\])?==([^ ;\\]+)", line) for line in lines)
    return {match[1].lower(): match[2] for match in found if match}


def locked(name: str) -> dict[str, str]:
    return pins((ROOT / ".requirements" / f"{name}.lock").read_text().splitlines())


def test_there_is_a_lock_for_each_purpose():
    assert {lock.stem for lock in LOCKS} == set(ASKED)


@pytest.mark.parametrize("name", ASKED)
def test_every_direct_version_is_exact_and_the_locked_one(name: str):
    asked = pins(ASKED[name])
    assert len(asked) == len(ASKED[name])
    assert asked.items() <= locked(name).items()


def test_the_checks_run_on_exactly_what_is_shipped():
    assert locked("run").items() <= locked("test").items()


def test_the_build_backend_is_the_locked_one():
    assert pins(PROJECT["build-system"]["requires"]).items() <= locked("build").items()


def test_building_and_checking_agree_where_they_share():
    build, test = locked("build"), locked("test")
    assert all(test[name] == version for name, version in build.items() if name in test)


@pytest.mark.parametrize("lock", LOCKS, ids=lambda lock: lock.stem)
def test_every_package_has_hashes(lock: Path):
    blocks = re.split(r"\n(?=\S)", lock.read_text().strip())
    assert [block.split()[0] for block in blocks if "--hash=sha256:" not in block] == []


@pytest.mark.parametrize("lock", LOCKS, ids=lambda lock: lock.stem)
def test_no_registry_is_named(lock: Path):
    text = lock.read_text()
    assert not re.search(r"://|--index|--find-links|--trusted|file:", text)
