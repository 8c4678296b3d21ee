"""Cases as a botanist writes them: the ordinary one, and what differs from it."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Mapping
from copy import deepcopy
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from hub.protocols.case import Case
from hub.protocols.rulebook_reader import Rulebook, standard_rulebook
from hub.protocols.schemas import read_case

CASES = Path(__file__).parent / "cases"
DAY = date(2030, 8, 1)


def ordinary() -> dict[str, Any]:
    """The facts of the ordinary case, as JSON."""
    return tomllib.loads((CASES / "ready.toml").read_text("utf-8"))


def changed(change: Mapping[str, Any]) -> Case:
    """The ordinary case with some facts changed; "unknown" leaves a fact out."""
    return read_case(_merged(ordinary(), change))


def _merged(facts: dict[str, Any], change: Mapping[str, Any]) -> dict[str, Any]:
    merged = deepcopy(facts)
    for name, value in change.items():
        if isinstance(value, Mapping):
            merged[name] = _merged(merged.get(name, {}), value)
        elif value == "unknown":
            merged.pop(name, None)
        else:
            merged[name] = [_json(each) for each in value] if isinstance(value, list) else _json(value)
    return merged


def _json(value: Any) -> Any:
    if isinstance(value, Mapping):
        return {name: _json(each) for name, each in value.items()}
    return value.isoformat() if isinstance(value, date) else value


@pytest.fixture(scope="session")
def rulebook() -> Rulebook:
    return standard_rulebook()


@pytest.fixture
def case_with() -> Callable[..., Case]:
    """``case_with(taxon={"care_class": "rare"})``."""
    return lambda **change: changed(change)
